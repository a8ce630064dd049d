#include "session/conclude.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

const std::filesystem::path kCalibFolder = HUEWRIGHT_SOURCE_DIR "/calib";

TEST(Conclude, SaysOfAShotWhatJudgeSaysOfItsPhoto) {
  const Session session = Session::open(kCalibFolder).value();
  JudgeRequest request;
  request.photo = HUEWRIGHT_SOURCE_DIR "/sample-images/four-panels.jpg";
  request.regions.panels = {toQuad({85, 130, 140, 250}), toQuad({279, 131, 147, 249}), toQuad({675, 131, 147, 248}), toQuad({877, 132, 136, 246})};  // README.md
  request.regions.card = toQuad({489, 144, 121, 214});
  request.regions.greys = {toQuad({477, 502, 147, 97})};
  request.mixes = {{1, 5}, {1, 4}, {1, 3}, {1, 2}};
  request.grey_y = 0.19;
  request.card_kind = CardKind::Same;
  const auto judged = session.judge(request);
  ASSERT_TRUE(judged) << sentence(judged.error());
  auto photo = Photo::open(request.photo);
  ASSERT_TRUE(photo);
  const auto shot = readShot(std::move(*photo), request, kCalibFolder);
  ASSERT_TRUE(shot) << sentence(shot.error());
  JudgeReport report = begunReport(*shot);
  EXPECT_TRUE(report.verdicts.empty());
  EXPECT_EQ(report.regions.panels, judged->regions.panels);
  conclude(report, shot->set_up.scene, fileTags({}, shot->set_up.scene, request), request, session.standards());
  ASSERT_EQ(report.verdicts.size(), 4U);
  for (std::size_t i = 0; i < 4; ++i) EXPECT_EQ(report.verdicts[i].sentence, judged->verdicts[i].sentence);
  EXPECT_EQ(report.ranking.sentence, judged->ranking.sentence);
  EXPECT_EQ(report.names, judged->names);
  EXPECT_EQ(report.trust.sentence, judged->trust.sentence);
  EXPECT_EQ(report.cautions.size(), judged->cautions.size());
}

}  // namespace
}  // namespace huewright
