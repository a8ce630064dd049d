#include "session/report_text.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

bool inText(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

JudgeReport reportTextOf(std::size_t panels) {
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

TEST(ReportText, NamesThePanelsOfTheirTags) {
  JudgeReport report = reportTextOf(2);
  report.tags = {{{"frame 3", TagParts{1, 4}, 4, 5}, {}, 1}, {{"spare", {}, {}, {}}, {}, {}}, {{"fork", {}, {}, {}}, {}, 0}};
  const std::string text = reportText(report, false);
  EXPECT_TRUE(inText(text, "  The tag \"frame 3\" names panel B: 1:4, 4 coats, carrier 5.\n")) << text;
  EXPECT_TRUE(inText(text, "  The tag \"fork\" names panel A.\n")) << text;
  EXPECT_FALSE(inText(text, "spare")) << text;
  report.stepped = true;
  EXPECT_TRUE(inText(reportText(report, false), "names the stepped panel: 1:4"));
}

TEST(ReportText, TellsVerdictColoursStepsAndCautions) {
  const std::string text = reportText(reportTextOf(1), false);
  EXPECT_TRUE(text.starts_with("Verdict number 1.\n"));
  EXPECT_TRUE(inText(text, "  panel     L*  40.0  a*  -30.0  b*  -12.5   ±1.0 ±0.5 ±0.2\n")) << text;
  EXPECT_TRUE(inText(text, "  card      L*  42.0  a*  -28.0  b*  -11.0   ±0.0 ±0.0 ±0.0\n")) << text;
  EXPECT_TRUE(inText(text, "What to do\n  1. Less of the strong tint.\n  2. Fewer coats.\n")) << text;
  EXPECT_TRUE(inText(text, "Take with care\n  - What the card is made of")) << text;
  EXPECT_TRUE(inText(text, "- Over a third of the panel is glare")) << text;
  EXPECT_FALSE(inText(text, "uncertainty")) << text;
  EXPECT_TRUE(text.ends_with(".\n"));
}

TEST(ReportText, ShowsNoSpreadOfACardGivenAsNumbers) {
  JudgeReport report = reportTextOf(1);
  report.reading.card_in_photo = false;
  EXPECT_TRUE(inText(reportText(report, false), "b*  -11.0\n"));
}

TEST(ReportText, ShowsNoMinusBeforeZero) {
  JudgeReport report = reportTextOf(1);
  report.reading.card.lab = {50, -0.04, -0.0};
  EXPECT_TRUE(inText(reportText(report, false), "  card      L*  50.0  a*    0.0  b*    0.0 "));
}

TEST(ReportText, ExplainsWhenAsked) {
  const std::string text = reportText(reportTextOf(1), true);
  for (const char* cause : {"texture     0.25", "grey ", "light ", "veil ", "rendering ", "camera ", "card kind "}) EXPECT_TRUE(inText(text, cause)) << cause << text;
}

TEST(ReportText, RanksSeveralPanelsAndGivesNoStepsForThem) {
  const std::string text = reportText(reportTextOf(2), false);
  EXPECT_TRUE(inText(text, "Verdict number 2.\nPanel B is nearest.\n")) << text;
  EXPECT_TRUE(inText(text, "  panel A ") && inText(text, "  panel B ")) << text;
  EXPECT_FALSE(inText(text, "What to do")) << text;
}

TEST(ReportText, OfASteppedPanelTheNearestStripSpeaks) {
  JudgeReport report = reportTextOf(3);
  report.stepped = true;
  report.main = 1;
  report.names = {"bare ground", "1 coat", "2 coats"};
  report.ranking.sentence = "1 coat and 2 coats cannot be told apart.";
  const std::string text = reportText(report, false);
  EXPECT_EQ(text.find("Verdict number 1."), std::string::npos);
  EXPECT_EQ(text.find("Verdict number 2."), 0u);
  EXPECT_NE(text.find("  bare ground"), std::string::npos);
  EXPECT_NE(text.find("  2 coats"), std::string::npos);
}

TEST(ReportText, SaysHowFarThePhotoCanBeTrustedUnlessThatIsClearOrSaidAlready) {
  JudgeReport report = reportTextOf(1);
  report.trust.sentence = "The photo can be trusted: nothing speaks against its being the camera's own file.";
  EXPECT_FALSE(inText(reportText(report, false), "trusted"));
  report.trust = {Grade::Fair, "The photo can be trusted fairly: it is small.", {{TrustCode::Small, "It is small."}}, {"Ask for it.", "And more."}};
  EXPECT_TRUE(inText(reportText(report, false), "Take with care\n  - The photo can be trusted fairly: it is small. Ask for it.\n  - What the card"));
  report.trust.reasons = {{TrustCode::ToneLocal, "The camera brightened it."}};  // a caution says it
  EXPECT_FALSE(inText(reportText(report, false), "trusted"));
  report.cautions.clear();
  EXPECT_FALSE(inText(reportText(report, false), "Take with care"));
}

TEST(ReportText, TwoShotsAreSaid) {
  JudgeReport report = reportTextOf(1);
  report.swap = SwapReport{"b.jpg", 1.26, -0.05};
  const std::string text = reportText(report, false);
  EXPECT_NE(text.find("differ by 1.3 in"), std::string::npos) << text;
  EXPECT_NE(text.find("4.9 % darker"), std::string::npos) << text;
}

TEST(ReportText, SeveralPanelsStandInOneLine) {
  JudgeReport report;
  report.verdicts.resize(2);
  report.verdicts[0].sentence = "Panel A is off.";
  report.verdicts[1].sentence = "Panel B is there.";
  report.ranking.sentence = "B is nearer.";
  EXPECT_EQ(verdictSentences(report), "Panel A is off. Panel B is there. B is nearer.");
  report.stepped = true;
  report.main = 1;
  EXPECT_EQ(verdictSentences(report), "Panel B is there. B is nearer.");
}

}  // namespace
}  // namespace huewright
