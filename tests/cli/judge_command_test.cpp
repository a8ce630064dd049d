#include "cli/judge_command.hpp"

#include <gtest/gtest.h>

#include "cli/holds.hpp"

namespace huewright {
namespace {

Standards standards() {
  auto read = readStandards(HUEWRIGHT_SOURCE_DIR "/calib");
  EXPECT_TRUE(read);
  return read.value_or(Standards{});
}

Result<JudgeRequest> judgeRequest(std::vector<std::string> words) {
  words.insert(words.begin(), {"judge", "a.jpg"});
  const auto arguments = parseArguments(words);
  if (!arguments) return std::unexpected(arguments.error());
  return judgeRequest(*arguments, standards());
}

TEST(JudgeRequestOf, ReadsEveryValue) {
  const auto r = judgeRequest({"--panel", "10,20,30,40", "--panel", "1,1,9,1,9,9,1,9", "--card", "100, 20, 30, 40", "--grey", "5,5,5,5", "--grey-y", "0.19",
                            "--mix", "1:3", "--mix", "2.5:0", "--coats", "3.5", "--card-kind", "printed", "--encoding", "linear", "--tolerance", "0.75"});
  ASSERT_TRUE(r);
  EXPECT_EQ(r->photo, "a.jpg");
  ASSERT_EQ(r->regions.panels.size(), 2U);
  EXPECT_EQ(r->regions.panels[0], toQuad({10, 20, 30, 40}));
  EXPECT_EQ(r->regions.panels[1], toQuad({1, 1, 8, 8}));
  EXPECT_EQ(*r->regions.card, toQuad({100, 20, 30, 40}));
  EXPECT_EQ(r->regions.greys.size(), 1U);
  EXPECT_EQ(*r->grey_y, 0.19);
  ASSERT_EQ(r->mixes.size(), 2U);
  EXPECT_EQ(r->mixes[0].share(), 0.25);
  EXPECT_EQ(r->mixes[1].strong, 2.5);
  EXPECT_EQ(*r->coats, 3.5);
  EXPECT_EQ(r->card_kind, CardKind::Printed);
  EXPECT_EQ(r->encoding, Encoding::Linear);
  EXPECT_EQ(*r->tolerance, 0.75);
  EXPECT_FALSE(r->card_lab);
}

TEST(JudgeRequestOf, ReadsStepsAndOtherPhotos) {
  const auto r = judgeRequest({"--steps", "0,1,2.5,4", "--black", "5,5,9,9", "--plain-sheet", "sheet.jpg", "--swapped", "b.jpg", "--carrier", "5", "--series", "s.json"});
  ASSERT_TRUE(r);
  EXPECT_EQ(r->steps, (std::vector<double>{0, 1, 2.5, 4}));
  EXPECT_EQ(*r->regions.black, toQuad({5, 5, 9, 9}));
  EXPECT_EQ(*r->plain_sheet, "sheet.jpg");
  EXPECT_EQ(*r->swapped, "b.jpg");
  EXPECT_EQ(*r->carrier, 5);
  EXPECT_EQ(*r->series, "s.json");
  for (const char* text : {"", "1,,2", "one,two", "1;2"}) {
    const auto bad = judgeRequest({"--steps", text});
    ASSERT_FALSE(bad) << text;
    EXPECT_EQ(bad.error().code, Code::BadSteps) << text;
  }
}

TEST(JudgeRequestOf, ReadsWhatIsKnownOfTheCamera) {
  const auto r = judgeRequest({"--chart", "none", "--profile", "c.json", "--chart-data", "m.txt"});
  ASSERT_TRUE(r);
  EXPECT_EQ(r->chart_use, ChartUse::None);
  EXPECT_EQ(*r->profile, "c.json");
  EXPECT_EQ(*r->chart_data, "m.txt");
  EXPECT_EQ(judgeRequest({"--chart", "auto"})->chart_use, ChartUse::Auto);
  EXPECT_EQ(*judgeRequest({"--chart", "5,5,60,40"})->chart, toQuad({5, 5, 60, 40}));
  EXPECT_EQ(judgeRequest({"--chart", "yes"}).error().code, Code::BadRegion);
}

TEST(JudgeRequestOf, LeavesOutWhatWasNotSaid) {
  const auto r = judgeRequest({});
  ASSERT_TRUE(r);
  EXPECT_TRUE(r->regions.panels.empty());
  EXPECT_FALSE(r->regions.card || r->card_lab || r->grey_y || r->coats || r->tolerance);
  EXPECT_EQ(r->card_kind, CardKind::Unknown);
  EXPECT_EQ(r->encoding, Encoding::Auto);
}

TEST(JudgeRequestOf, ReadsLabAndWords) {
  EXPECT_EQ(*judgeRequest({"--card-lab", "45.5,-30,-12e0"})->card_lab, (Lab<D50>{45.5, -30, -12}));
  EXPECT_EQ(*judgeRequest({"--card-lab", "45.5, -30, -12"})->card_lab, (Lab<D50>{45.5, -30, -12}));
  struct Row {
    const char* word;
    double tolerance;
  };
  // Common practice, no source; see calib/standards.json.
  for (const auto& [word, tolerance] : {Row{"touching", 0.5}, Row{"neighbour", 1.0}, Row{"alone", 2.0}, Row{"1.5", 1.5}})
    EXPECT_EQ(*judgeRequest({"--tolerance", word})->tolerance, tolerance) << word;
}

TEST(JudgeRequestOf, RefusesWhatItCannotRead) {
  struct Row {
    const char *option, *value;
    Code code;
  };
  for (const auto& [option, value, code] :
       {Row{"--panel", "1,2,3", Code::BadRegion}, Row{"--panel", "a,b,c,d", Code::BadRegion}, Row{"--panel", "nan,0,10,10", Code::BadRegion},
        Row{"--panel", "inf,0,10,10", Code::BadRegion}, Row{"--panel", "1,2,3,4,", Code::BadRegion}, Row{"--panel", "0,0,9,0,9,9", Code::BadRegion},
        Row{"--panel", "0,0,0,10", Code::ZeroRegion}, Row{"--panel", "0,0,10,-1", Code::ZeroRegion}, Row{"--card", "1;2;3;4", Code::BadRegion},
        Row{"--grey", "0,0,1,1,2,2,3,3", Code::ZeroRegion}, Row{"--mix", "0:0", Code::BadMix}, Row{"--mix", "1", Code::BadMix},
        Row{"--mix", "-1:2", Code::BadMix}, Row{"--mix", "1:nan", Code::BadMix}, Row{"--mix", "1:inf", Code::BadMix}, Row{"--mix", "1e308:1e308", Code::BadMix}, Row{"--mix", "1:2:3", Code::BadMix},
        Row{"--mix", "1:", Code::BadMix}, Row{"--mix", "one:two", Code::BadMix}, Row{"--tolerance", "0", Code::BadNumber},
        Row{"--tolerance", "-1", Code::BadNumber}, Row{"--tolerance", "nan", Code::BadNumber}, Row{"--tolerance", "tight", Code::BadNumber},
        Row{"--tolerance", "101", Code::BadNumber}, Row{"--coats", "abc", Code::BadNumber}, Row{"--coats", "nan", Code::BadNumber},
        Row{"--coats", "4 coats", Code::BadNumber}, Row{"--grey-y", "nan", Code::BadNumber}, Row{"--grey-y", "18%", Code::BadNumber},
        Row{"--grey-y", "0,18", Code::BadNumber}, Row{"--card-lab", "45,-30", Code::BadNumber}, Row{"--card-lab", "45,-30,nan", Code::BadNumber},
        Row{"--card-lab", "45,-30,-12,1", Code::BadNumber}, Row{"--card-lab", "teal", Code::BadNumber}, Row{"--card-kind", "metal", Code::BadChoice},
        Row{"--card-kind", "Same", Code::BadChoice}, Row{"--encoding", "jpeg", Code::BadChoice}}) {
    const auto r = judgeRequest({option, value});
    ASSERT_FALSE(r) << option << " " << value;
    EXPECT_EQ(r.error().code, code) << option << " " << value;
    EXPECT_NE(r.error().detail.find(value), std::string::npos) << option << " " << value << " is not named";
  }
}

TEST(JudgeRequestOf, TakesOnePhotoOrMore) {
  EXPECT_EQ(judgeRequest({}, standards()).error().code, Code::NoPhoto);
  const auto several = judgeRequest({"b.jpg", "c.jpg"});
  ASSERT_TRUE(several);
  EXPECT_EQ(several->repeats, (std::vector<std::filesystem::path>{"b.jpg", "c.jpg"}));
}

TEST(JudgeRequestOf, TakesSecondViews) {
  const auto r = judgeRequest({"--also", "day.jpg", "--flop", "low.jpg", "--flop-panel", "1,2,30,40", "--flop-card", "50,2,30,40", "--flop-grey", "90,2,30,40"});
  ASSERT_TRUE(r);
  EXPECT_EQ(r->also->photo, "day.jpg");
  EXPECT_TRUE(r->also->regions.panels.empty());
  EXPECT_EQ(r->flop->photo, "low.jpg");
  EXPECT_EQ(r->flop->regions.panels.size(), 1u);
  EXPECT_TRUE(r->flop->regions.card);
  EXPECT_EQ(r->flop->regions.greys.size(), 1u);
  const auto homeless = judgeRequest({"--also-card", "50,2,30,40"});
  ASSERT_FALSE(homeless);
  EXPECT_NE(homeless.error().detail.find("--also PHOTO"), std::string::npos);
}

TEST(JudgeText, HasEscapesOnlyWithBlocks) {
  JudgeReport report;
  report.reading.panels.resize(2);
  report.verdicts.resize(2);
  report.names = {"panel A", "panel B"};
  EXPECT_FALSE(holds(judgeText(report, true, false), "\x1b"));
  const std::string blocks = judgeText(report, true, true);
  std::size_t count = 0;
  for (auto at = blocks.find("\x1b[48;2;"); at != std::string::npos; at = blocks.find("\x1b[48;2;", at + 1)) ++count;
  EXPECT_EQ(count, 3U);  // two panels and the card
}

}  // namespace
}  // namespace huewright
