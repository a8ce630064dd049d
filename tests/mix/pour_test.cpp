#include "mix/pour.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <limits>
#include <numeric>

namespace huewright {
namespace {

PourRecipe tealMix(double strong, double weak, double carrier) { return {{{"teal, strong", strong}, {"aqua, weak", weak}}, carrier}; }

double sumOf(const std::vector<double>& values) { return std::accumulate(values.begin(), values.end(), 0.0); }

// Worked by hand: 1 : 3 makes 4 parts of tint; five of carrier to one of tint makes 20 more: 24 in all.
TEST(PourFractions, AreThePartsOfTheWhole) {
  struct Row {
    double strong, weak, carrier;
    std::array<double, 3> want;
    double share;
  };
  for (const Row& row : {Row{1, 3, 5, {1 / 24.0, 3 / 24.0, 20 / 24.0}, 0.25}, Row{1, 1, 0, {0.5, 0.5, 0}, 0.5}, Row{2, 3, 1, {0.2, 0.3, 0.5}, 0.4},
                         Row{0, 1, 4, {0, 0.2, 0.8}, 0}, Row{1, 7, 6, {1 / 56.0, 7 / 56.0, 48 / 56.0}, 0.125}}) {
    const auto fractions = pourFractions(tealMix(row.strong, row.weak, row.carrier));
    ASSERT_EQ(fractions.size(), 3U);
    for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(fractions[i], row.want[i], 1e-15);
    EXPECT_NEAR(tintShares(tealMix(row.strong, row.weak, row.carrier))[0], row.share, 1e-15);
  }
}

TEST(PourFractions, DoNotDependOnTheScaleOfTheParts) {
  for (const double times : {0.01, 0.5, 3.0, 100.0}) {
    const auto a = pourFractions(tealMix(2, 5, 5)), b = pourFractions(tealMix(2 * times, 5 * times, 5));
    for (std::size_t i = 0; i < a.size(); ++i) EXPECT_NEAR(a[i], b[i], 1e-15);
    EXPECT_NEAR(sumOf(b), 1, 1e-14);
  }
}

// Worked by hand: (1 · 1.10 + 3 · 1.00 + 20 · 0.88) ÷ 24 = 21.7 ÷ 24.
TEST(MixDensity, IsTheMeanByVolume) {
  PourRecipe mix = tealMix(1, 3, 5);
  mix.tints[0].density = 1.10;
  mix.tints[1].density = 1.00;
  EXPECT_FALSE(mixDensity(mix));
  mix.carrier_density = 0.88;
  EXPECT_NEAR(*mixDensity(mix), 21.7 / 24, 1e-15);
  mix.tints[1].density.reset();
  mix.tints[1].parts = 0;  // of what is not in it no density is needed
  EXPECT_NEAR(*mixDensity(mix), (1.10 + 5 * 0.88) / 6, 1e-15);
}

// 240 mL of 1 : 3 and five carrier, worked by hand: 10, 30 and 200 mL; 11, 30 and 176 g.
TEST(Pourings, RunFromTheSmallestTintToTheCarrier) {
  PourRecipe mix = tealMix(3, 1, 5);
  mix.tints[0].density = 1.00;
  mix.tints[1].density = 1.10;
  mix.carrier_density = 0.88;
  const std::vector<double> add{30, 10, 200};
  const auto order = pourings(mix, add);
  ASSERT_EQ(order.size(), 3U);
  struct Row {
    std::size_t ingredient;
    double ml, to_ml, g, to_g;
  };
  const std::array want{Row{1, 10, 10, 11, 11}, Row{0, 30, 40, 30, 41}, Row{2, 200, 240, 176, 217}};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(order[i].ingredient, want[i].ingredient);
    EXPECT_NEAR(order[i].ml, want[i].ml, 1e-12);
    EXPECT_NEAR(order[i].to_ml, want[i].to_ml, 1e-12);
    EXPECT_NEAR(order[i].g.value(), want[i].g, 1e-12);
    EXPECT_NEAR(order[i].to_g.value(), want[i].to_g, 1e-12);
  }
}

TEST(Pourings, StartAtWhatIsInTheCupAndLeaveOutWhatIsNotAdded) {
  const std::vector<double> add{0, 12, 5};
  const auto order = pourings(tealMix(1, 3, 5), add, 100);
  ASSERT_EQ(order.size(), 2U);
  EXPECT_EQ(order[0].ingredient, 1U);
  EXPECT_EQ(order[1].ingredient, 2U);  // the carrier last, though it is less
  EXPECT_EQ(order[0].to_ml, 112);
  EXPECT_EQ(order[1].to_ml, 117);
}

TEST(Pourings, TheRunningWeightEndsWhereADensityIsMissing) {
  PourRecipe mix = tealMix(1, 3, 5);
  mix.tints[0].density = 1.0;
  mix.carrier_density = 0.9;
  const std::vector<double> add{1, 3, 20};
  const auto order = pourings(mix, add);
  EXPECT_TRUE(order[0].to_g);
  EXPECT_FALSE(order[1].g);
  EXPECT_FALSE(order[1].to_g);
  EXPECT_TRUE(order[2].g);
  EXPECT_FALSE(order[2].to_g);
}

TEST(WrongRecipe, SaysWhatIsWrong) {
  const double nan = std::numeric_limits<double>::quiet_NaN(), infinite = std::numeric_limits<double>::infinity();
  EXPECT_FALSE(wrongRecipe(tealMix(1, 3, 5)));
  EXPECT_FALSE(wrongRecipe(tealMix(1, 0, 0)));
  PourRecipe twice = tealMix(1, 3, 5), heavy = twice, nameless = twice, carrier = twice, many;
  twice.tints[1].name = twice.tints[0].name;
  heavy.carrier_density = 8.8;
  nameless.tints[0].name.clear();
  carrier.tints[0].name = "carrier";
  for (int i = 0; i < 13; ++i) many.tints.push_back({"tint " + std::to_string(i), 1});
  struct Row {
    PourRecipe recipe;
    const char* says;
  };
  for (const Row& row : {Row{tealMix(-1, 3, 5), "teal, strong"}, Row{tealMix(0, 0, 5), "are 0"}, Row{tealMix(1, nan, 5), "aqua, weak"}, Row{tealMix(infinite, 1, 5), "teal, strong"},
                         Row{tealMix(1, 3, -0.1), "carrier is -0.1"}, Row{tealMix(1, 3, nan), "carrier"}, Row{tealMix(1, 3, 101), "carrier"}, Row{twice, "Two tints"}, Row{heavy, "8.8"},
                         Row{nameless, "name"}, Row{carrier, "name"}, Row{many, "13 tints"}, Row{PourRecipe{}, "No mix"}}) {
    const auto problem = wrongRecipe(row.recipe);
    ASSERT_TRUE(problem) << row.says;
    EXPECT_EQ(exitCode(problem->code), 2);
    EXPECT_NE(sentence(*problem).find(row.says), std::string::npos) << sentence(*problem);
  }
}

}  // namespace
}  // namespace huewright
