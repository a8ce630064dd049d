#include "cli/map_command.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

Result<MapRequest> mapRequest(std::vector<std::string> words) {
  words.insert(words.begin(), "map");
  const auto arguments = parseArguments(words);
  if (!arguments) return std::unexpected(arguments.error());
  return mapRequest(*arguments, readStandards(HUEWRIGHT_SOURCE_DIR "/calib").value());
}

TEST(MapRequestOf, ReadsPhotoPictureAndWhatJudgeReads) {
  const auto r = mapRequest({"a.jpg", "out.png", "--panel", "10,20,30,40", "--card", "50,20,30,40", "--tolerance", "touching"});
  ASSERT_TRUE(r);
  EXPECT_EQ(r->judge.photo, "a.jpg");
  EXPECT_EQ(r->out, "out.png");
  EXPECT_EQ(r->judge.regions.panels.size(), 1u);
  EXPECT_EQ(*r->judge.tolerance, 0.5);
}

TEST(MapRequestOf, RefusesTooManyNamesAndWhatJudgeRefuses) {
  EXPECT_EQ(mapRequest({"a.jpg", "b.png", "c.png"}).error().code, Code::BadChoice);
  EXPECT_EQ(mapRequest({}).error().code, Code::NoPhoto);
  EXPECT_EQ(mapRequest({"a.jpg", "b.png", "--panel", "1,2,3"}).error().code, Code::BadRegion);
  EXPECT_EQ(mapRequest({"a.jpg", "b.png", "--steps", "1,2"}).error().code, Code::BadOption);  // not an option of map
  EXPECT_TRUE(mapRequest({"a.jpg"})->out.empty());  // the session says what is missing
}

TEST(MapText, SaysTheVerdictTheEvennessAndWhereTheMapIs) {
  MapReport report;
  report.judge.verdicts.resize(1);
  report.judge.verdicts[0].sentence = "The panel is deeper than the card.";
  report.sentences = {"The panel is even."};
  report.judge.cautions = {{CautionCode::CardKindUnknown, {}}};
  MapRequest request;
  request.out = "o.png";
  const std::string text = mapText(request, report);
  EXPECT_EQ(text.find("The panel is deeper than the card.\nThe panel is even.\nThe map is in o.png.\n"), 0u) << text;
  EXPECT_NE(text.find("Take with care\n  - "), std::string::npos);
}

}  // namespace
}  // namespace huewright
