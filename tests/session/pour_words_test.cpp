#include "session/pour_words.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

#include "base/text.hpp"
#include "session/pour_support.hpp"

namespace huewright {
namespace {

using namespace pour_test;

double amountIn(const std::string& words) { return numberOf(words.substr(0, words.find(' '))).value_or(std::nan("")); }

bool saysAnywhere(const std::vector<std::string>& sentences, const std::string& part) {
  return std::ranges::any_of(sentences, [&](const std::string& words) { return words.find(part) != std::string::npos; });
}

TEST(MixWords, NameEveryPart) {
  EXPECT_EQ(recipeWords(bicyclePour().recipe), "teal, strong 1 : aqua, weak 3 + 5 carrier");
  EXPECT_EQ(recipeWords({{{"teal", 2.5}}, 0}), "teal 2.5, no carrier");
}

// 4.375, 13.125, 87.5 mL and 4.594, 13.256, 77.000 g as they are read.
TEST(PourLines, AreWhatIsRead) {
  const PourRequest request = bicyclePour();
  const auto lines = pourLines(request, *pour(request));
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[0].name, "teal, strong");
  EXPECT_EQ(lines[0].add_ml, "4.4 mL");
  EXPECT_EQ(lines[0].add_g, "4.6 g");
  EXPECT_EQ(lines[1].until, "17.8 g");  // 4.594 + 13.256 = 17.850, a hair below
  EXPECT_EQ(lines[2].until, "94.8 g");
  EXPECT_EQ(lines[0].off, "±2.2 %");
}

// What is added adds up to what is shown, in every unit, whatever the step; and no reading is off by more than half a step.
TEST(PourLines, AddUpAsTheyArePrinted) {
  for (const double step : {0.01, 0.05, 0.1, 0.2, 0.5, 1.0})
    for (const double ml : {3.3, 17.7, 105.0, 1234.5, 30000.0}) {
      PourRequest request = bicyclePour();
      request.need = {};
      request.volume_ml = ml;
      request.gauge = PourGauge{PourBy::Scale, step};
      const auto report = pour(request);
      ASSERT_TRUE(report);
      double g = 0, total_ml = 0;
      const auto lines = pourLines(request, *report);
      for (std::size_t i = 0; i < lines.size(); ++i) {
        g += amountIn(lines[i].add_g);
        total_ml += amountIn(lines[i].add_ml);
        EXPECT_NEAR(g, amountIn(lines[i].until), 1e-9) << step << " " << ml;
        EXPECT_LE(std::abs(g - *report->order[i].to_g), 0.5 * step + 1e-9);
        EXPECT_NEAR(std::remainder(g, step), 0, 1e-9);
      }
      EXPECT_NEAR(total_ml, ml, 0.5);
    }
}

TEST(Amounts, AreToldInTheStepsOfWhatIsRead) {
  PourReport report;
  report.total_ml = 100;
  report.gauge = {PourBy::Scale, 0.05};
  EXPECT_EQ(gramWords(report, 12.337), "12.35 g");
  EXPECT_EQ(mlWords(report, 12.337), "12.3 mL");
  report.gauge = {PourBy::Cup, 0.1};
  EXPECT_EQ(gramWords(report, 12.337), "12.3 g");
  EXPECT_EQ(mlWords(report, 12.337), "12.34 mL");
  report.total_ml = 30000;
  EXPECT_EQ(mlWords(report, 12345.6), "12346 mL");
}

TEST(PourLines, OfACupStartAtWhatIsInIt) {
  PourRequest request = plainPour(240);
  request.held = PourHeld{120, false, {1, 2}, 5};
  const auto lines = pourLines(request, *pour(request));
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[0].until, "123.3 mL");
  EXPECT_EQ(lines[2].until, "240.0 mL");
  EXPECT_EQ(lines[0].add_g, "");
}

TEST(PourLines, KeepTheWeightOfWhatHasADensity) {
  PourRequest request = plainPour(240);
  request.recipe.tints[0].density = 1.05;
  request.recipe.carrier_density = 0.88;
  const auto lines = pourLines(request, *pour(request));
  EXPECT_EQ(lines[0].add_g, "10.5 g");
  EXPECT_EQ(lines[1].add_g, "");
  EXPECT_EQ(lines[2].add_g, "176.0 g");
  EXPECT_EQ(lines[2].until, "240.0 mL");
}

TEST(PourSentences, SayWhyHowExactlyAndWhatElse) {
  const PourRequest request = bicyclePour();
  const auto report = pour(request);
  for (const char* part : {"About 105 mL", "0.45 m², 4 coats, 25 µm", "50 %", "84 mL to 144 mL", "frame 82 mL; fork 23 mL", "off by 3.7 %", "meant to be 25.0 %, then lies between 24.3 and 25.7 %",
                           "line 1 teal, strong; line 4 aqua, weak; line 24 carrier. One line is 4.4 mL", "to zero with the empty cup", "125 µm or finer", "data sheets"})
    EXPECT_TRUE(saysAnywhere(report->sentences, part)) << part;
  EXPECT_FALSE(saysAnywhere(report->sentences, "smallest amount"));  // that is told by the caution
  EXPECT_NE(sentence(report->cautions.back()).find("at least 387 mL"), std::string::npos) << sentence(report->cautions.back());
  EXPECT_NE(sentence(report->cautions.back()).find("steps of 0.01 g"), std::string::npos);
  for (const std::string& words : report->sentences) EXPECT_TRUE(words.ends_with(".")) << words;
}

// 3.1 mL read to 1 mL: the first-order error is far over the amount itself, and no figure is made of it.
TEST(PourSentences, OfFarTooLittleClaimNoFigures) {
  const auto report = pour(plainPour(3.1));
  ASSERT_TRUE(report);
  EXPECT_GT(report->errors.ratio, 1);
  EXPECT_TRUE(saysAnywhere(report->sentences, "may be off by over 50 % at worst."));
  EXPECT_EQ(pourLines(plainPour(3.1), *report).front().off, ">50 %");
  EXPECT_EQ(sentence(report->cautions.back()), "3.10 mL is too little to pour with a ratio error of at most 1 %: it may be over 50 %. Pour at least 4000 mL at a time, or weigh it.");
}

// At 200 mL of 1 : 3 and five of carrier levels must be read to 1 mL · 200 ÷ 4000.
TEST(PourSentences, TellHowFinelyASyringeMustBeRead) {
  const auto report = pour(plainPour(200));
  EXPECT_NE(sentence(report->cautions.back()).find("read each amount to 0.05 mL (with a syringe), or weigh it"), std::string::npos) << sentence(report->cautions.back());
}

TEST(PourSentences, OfACupThatHoldsSomething) {
  PourRequest request = plainPour(60);
  request.held = PourHeld{120, false, {1, 2}, 5};
  const auto report = pour(request);
  EXPECT_TRUE(saysAnywhere(report->sentences, "To the 120.0 mL in the cup add 40.0 mL in all, and take nothing out; that makes 160.0 mL, 100.0 mL more than is needed."));
  EXPECT_NE(sentence(report->cautions.front()).find("holds more teal, strong than 60.0 mL"), std::string::npos);
  request.held = PourHeld{120, false, {1, 3}, 5};
  EXPECT_TRUE(saysAnywhere(pour(request)->sentences, "already holds the wanted mix, 120.0 mL: nothing is to be added."));
  EXPECT_TRUE(pour(request)->order.empty());
}

TEST(PourSentences, OfAMixOfOneHaveNoRatio) {
  PourRequest request = plainPour(50);
  request.recipe = {{{"teal", 1}}, 0};
  const auto report = pour(request);
  ASSERT_TRUE(report);
  EXPECT_TRUE(report->cautions.empty());
  EXPECT_FALSE(saysAnywhere(report->sentences, "ratio"));
}

TEST(SprayCautions, NameEveryDanger) {
  for (const char* part : {"isocyanates", "supplied air", "respirator", "Solvent vapour", "ignition", "safety data sheets", "local codes", "licensed practice"})
    EXPECT_TRUE(saysAnywhere(sprayCautions(), part)) << part;
}

TEST(PourSheetOf, HoldsTheReport) {
  PourRequest request = bicyclePour();
  request.title = "touring bicycle";
  const auto report = pour(request);
  const PourSheet sheet = pourSheet(request, *report);
  EXPECT_EQ(sheet.title, "Pour sheet: touring bicycle");
  EXPECT_EQ(sheet.coats, 4);
  EXPECT_EQ(sheet.notes.size(), report->sentences.size() + report->cautions.size());
  EXPECT_EQ(sheet.cautions, sprayCautions());
  ASSERT_EQ(sheet.layers.size(), 3U);
  EXPECT_NEAR(sheet.layers[0].to, 1 / 24.0, 1e-12);
  EXPECT_NEAR(sheet.layers[2].to, 1, 1e-12);
  EXPECT_EQ(sheet.layers[1].mark, "4");
  EXPECT_TRUE(saysAnywhere(sheet.facts, "Finished mix: 105.0 mL, " + sheet.lines.back().until + "."));  // all of it is the last thing that the scale shows
  EXPECT_TRUE(saysAnywhere(sheet.notes, "25.0\u00A0%")) << sheet.notes[3];
  request.need.coats = 3.5;
  EXPECT_EQ(pourSheet(request, *pour(request)).coats, 4);
}

TEST(PourSheetOf, ACupThatHoldsSomethingShowsIt) {
  PourRequest request = plainPour(240);
  request.held = PourHeld{120, false, {1, 2}, 5};
  const PourSheet sheet = pourSheet(request, *pour(request));
  ASSERT_EQ(sheet.layers.size(), 4U);
  EXPECT_TRUE(sheet.layers[0].in_cup);
  EXPECT_NEAR(sheet.layers[0].to, 0.5, 1e-12);
  EXPECT_TRUE(saysAnywhere(sheet.facts, "Finished mix: 240.0 mL; 120.0 mL of it are in the cup already (1:2 + 5 carrier)."));
  EXPECT_EQ(sheet.coats, 0);
}

}  // namespace
}  // namespace huewright
