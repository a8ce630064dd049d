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

JudgeReport reportOf(std::size_t panels) {
  JudgeReport report;
  for (std::size_t i = 0; i < panels; ++i) {
    report.reading.panels.push_back({.lab = {40.04, -30.0, -12.5}, .lab_sd = {0.5, 0.25, 0.125}, .xyz = {}});
    report.verdicts.emplace_back();
    report.names.push_back(panels == 1 ? "panel" : "panel " + std::string(1, static_cast<char>('A' + i)));
    report.verdicts.back().sentence = "Verdict number " + std::to_string(i + 1) + ".";
  }
  report.verdicts.front().budget[0] = 0.25;
  report.reading.card.lab = {42, -28, -11};
  report.advice.actions = {{"strong_share", Way::Decrease, "Less of the strong tint."}, {"coats", Way::Decrease, "Fewer coats."}};
  report.cautions = {{CautionCode::CardKindUnknown, {}}, {CautionCode::Glare, "the panel"}};
  if (panels > 1) report.ranking.sentence = "Panel B is nearest.";
  return report;
}

TEST(JudgeText, NamesThePanelsOfTheirTags) {
  JudgeReport report = reportOf(2);
  report.tags = {{{"frame 3", TagParts{1, 4}, 4, 5}, {}, 1}, {{"spare", {}, {}, {}}, {}, {}}, {{"fork", {}, {}, {}}, {}, 0}};
  const std::string text = judgeText(report, false, false);
  EXPECT_TRUE(holds(text, "  The tag \"frame 3\" names panel B: 1:4, 4 coats, carrier 5.\n")) << text;
  EXPECT_TRUE(holds(text, "  The tag \"fork\" names panel A.\n")) << text;
  EXPECT_FALSE(holds(text, "spare")) << text;
  report.stepped = true;
  EXPECT_TRUE(holds(judgeText(report, false, false), "names the stepped panel: 1:4"));
}

TEST(JudgeText, TellsVerdictColoursStepsAndCautions) {
  const std::string text = judgeText(reportOf(1), false, false);
  EXPECT_TRUE(text.starts_with("Verdict number 1.\n"));
  EXPECT_TRUE(holds(text, "  panel     L*  40.0  a*  -30.0  b*  -12.5   ±1.0 ±0.5 ±0.2\n")) << text;
  EXPECT_TRUE(holds(text, "  card      L*  42.0  a*  -28.0  b*  -11.0   ±0.0 ±0.0 ±0.0\n")) << text;
  EXPECT_TRUE(holds(text, "What to do\n  1. Less of the strong tint.\n  2. Fewer coats.\n")) << text;
  EXPECT_TRUE(holds(text, "Take with care\n  - What the card is made of")) << text;
  EXPECT_TRUE(holds(text, "- Over a third of the panel is glare")) << text;
  EXPECT_FALSE(holds(text, "uncertainty")) << text;
  EXPECT_TRUE(text.ends_with(".\n"));
}

TEST(JudgeText, ShowsNoSpreadOfACardGivenAsNumbers) {
  JudgeReport report = reportOf(1);
  report.reading.card_in_photo = false;
  EXPECT_TRUE(holds(judgeText(report, false, false), "b*  -11.0\n"));
}

TEST(JudgeText, ShowsNoMinusBeforeZero) {
  JudgeReport report = reportOf(1);
  report.reading.card.lab = {50, -0.04, -0.0};
  EXPECT_TRUE(holds(judgeText(report, false, false), "  card      L*  50.0  a*    0.0  b*    0.0 "));
}

TEST(JudgeText, ExplainsWhenAsked) {
  const std::string text = judgeText(reportOf(1), true, false);
  for (const char* cause : {"texture     0.25", "grey ", "light ", "veil ", "rendering ", "camera ", "card kind "}) EXPECT_TRUE(holds(text, cause)) << cause << text;
}

TEST(JudgeText, RanksSeveralPanelsAndGivesNoStepsForThem) {
  const std::string text = judgeText(reportOf(2), false, false);
  EXPECT_TRUE(holds(text, "Verdict number 2.\nPanel B is nearest.\n")) << text;
  EXPECT_TRUE(holds(text, "  panel A ") && holds(text, "  panel B ")) << text;
  EXPECT_FALSE(holds(text, "What to do")) << text;
}

TEST(JudgeText, HasEscapesOnlyWithBlocks) {
  EXPECT_FALSE(holds(judgeText(reportOf(2), true, false), "\x1b"));
  const std::string blocks = judgeText(reportOf(2), true, true);
  std::size_t count = 0;
  for (auto at = blocks.find("\x1b[48;2;"); at != std::string::npos; at = blocks.find("\x1b[48;2;", at + 1)) ++count;
  EXPECT_EQ(count, 3U);  // two panels and the card
}

TEST(JudgeText, OfASteppedPanelTheNearestStripSpeaks) {
  JudgeReport report = reportOf(3);
  report.stepped = true;
  report.main = 1;
  report.names = {"bare ground", "1 coat", "2 coats"};
  report.ranking.sentence = "1 coat and 2 coats cannot be told apart.";
  const std::string text = judgeText(report, false, false);
  EXPECT_EQ(text.find("Verdict number 1."), std::string::npos);
  EXPECT_EQ(text.find("Verdict number 2."), 0u);
  EXPECT_NE(text.find("  bare ground"), std::string::npos);
  EXPECT_NE(text.find("  2 coats"), std::string::npos);
}

TEST(JudgeText, SaysHowFarThePhotoCanBeTrustedUnlessThatIsClearOrSaidAlready) {
  JudgeReport report = reportOf(1);
  report.trust.sentence = "The photo can be trusted: nothing speaks against its being the camera's own file.";
  EXPECT_FALSE(holds(judgeText(report, false, false), "trusted"));
  report.trust = {Grade::Fair, "The photo can be trusted fairly: it is small.", {{TrustCode::Small, "It is small."}}, {"Ask for it.", "And more."}};
  EXPECT_TRUE(holds(judgeText(report, false, false), "Take with care\n  - The photo can be trusted fairly: it is small. Ask for it.\n  - What the card"));
  report.trust.reasons = {{TrustCode::ToneLocal, "The camera brightened it."}};  // a caution says it
  EXPECT_FALSE(holds(judgeText(report, false, false), "trusted"));
  report.cautions.clear();
  EXPECT_FALSE(holds(judgeText(report, false, false), "Take with care"));
}

TEST(JudgeText, TwoShotsAreSaid) {
  JudgeReport report = reportOf(1);
  report.swap = SwapReport{"b.jpg", 1.26, -0.05};
  const std::string text = judgeText(report, false, false);
  EXPECT_NE(text.find("differ by 1.3 in"), std::string::npos) << text;
  EXPECT_NE(text.find("4.9 % darker"), std::string::npos) << text;
}

}  // namespace
}  // namespace huewright
