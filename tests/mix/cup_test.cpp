#include "mix/cup.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <limits>
#include <numeric>
#include <random>

namespace huewright {
namespace {

PourRecipe tealInCup(double strong, double weak, double carrier) { return {{{"teal, strong", strong}, {"aqua, weak", weak}}, carrier}; }

double allOf(const std::vector<double>& values) { return std::accumulate(values.begin(), values.end(), 0.0); }

// Worked by hand.
TEST(WholeCupParts, AreTheSmallestWholeNumbers) {
  struct Row {
    std::vector<double> amounts;
    std::vector<int> want;
  };
  for (const Row& row : {Row{{1, 3, 20}, {1, 3, 20}}, Row{{4, 12, 80}, {1, 3, 20}}, Row{{1, 2.5, 17.5}, {2, 5, 35}}, Row{{0.35, 0.1, 0}, {7, 2, 0}},
                         Row{{1 / 3.0, 1, 2}, {1, 3, 6}}, Row{{1, 1.5}, {2, 3}}, Row{{7}, {1}}, Row{{4.375, 13.125, 87.5}, {1, 3, 20}}}) {
    const auto parts = wholeCupParts(row.amounts);
    ASSERT_TRUE(parts);
    EXPECT_EQ(parts->each, row.want);
    EXPECT_EQ(parts->total, std::accumulate(row.want.begin(), row.want.end(), 0));
  }
}

TEST(WholeCupParts, AreNotForcedOnAmountsThatHaveNone) {
  EXPECT_FALSE(wholeCupParts(std::vector{1.0, std::sqrt(2.0)}));
  EXPECT_FALSE(wholeCupParts(std::vector{1.0, 300.0}));
  EXPECT_FALSE(wholeCupParts(std::vector{1.0, 3.01, 20.0}));
  EXPECT_FALSE(wholeCupParts(std::vector{0.0, 0.0}));
  EXPECT_FALSE(wholeCupParts(std::vector{1.0, 3.0, 20.0}, 23));
  EXPECT_TRUE(wholeCupParts(std::vector{1.0, 3.0, 20.0}, 24));
}

TEST(CupFills, AreAsFewAsCanBe) {
  EXPECT_EQ(cupFills(99, 100), 1);
  EXPECT_EQ(cupFills(100, 100), 1);
  EXPECT_EQ(cupFills(0.1 * 3, 0.3), 1);  // 0.1 · 3 is a hair more than 0.3
  EXPECT_EQ(cupFills(101, 100), 2);
  EXPECT_EQ(cupFills(250, 100), 3);
}

// The cup holds 120 mL of 1 : 2 and five carrier: 6.667, 13.333 and 100 mL. Wanted are 240 mL of 1 : 3 and five carrier: 10, 30 and 200. Worked by hand.
TEST(CupTopUp, WorkedExample) {
  const auto top = topUp(tealInCup(1, 3, 5), {120, {1, 2}, 5}, 240);
  ASSERT_TRUE(top);
  EXPECT_NEAR(top->in_cup[0], 120 / 18.0, 1e-9);
  EXPECT_NEAR(top->add[0], 10 - 120 / 18.0, 1e-9);
  EXPECT_NEAR(top->add[1], 30 - 240 / 18.0, 1e-9);
  EXPECT_NEAR(top->add[2], 100, 1e-9);
  EXPECT_NEAR(top->total_ml, 240, 1e-9);
  EXPECT_NEAR(top->added_ml, 120, 1e-9);
  EXPECT_FALSE(top->too_much);
  EXPECT_FALSE(top->fresh_is_less);
}

// The same, 60 mL wanted: the strong tint in the cup, 6.667 mL, is a 24th of 160 mL. 40 mL are added: less than 60 afresh.
TEST(CupTopUp, GrowsWhereSomethingIsTooMuch) {
  const auto top = topUp(tealInCup(1, 3, 5), {120, {1, 2}, 5}, 60);
  ASSERT_TRUE(top);
  EXPECT_NEAR(top->total_ml, 160, 1e-9);
  EXPECT_NEAR(top->added_ml, 40, 1e-9);
  EXPECT_EQ(top->too_much, 0U);
  EXPECT_EQ(top->add[0], 0);
  EXPECT_FALSE(top->fresh_is_less);
  // 30 mL afresh are less than the 40 that must be added.
  EXPECT_TRUE(topUp(tealInCup(1, 3, 5), {120, {1, 2}, 5}, 30)->fresh_is_less);
}

TEST(CupTopUp, TheMixItselfNeedsNothingOrOnlyMoreOfTheSame) {
  const auto enough = topUp(tealInCup(1, 3, 5), {120, {2, 6}, 5}, 100);
  ASSERT_TRUE(enough);
  EXPECT_EQ(enough->added_ml, 0);
  EXPECT_NEAR(enough->total_ml, 120, 1e-9);
  const auto more = topUp(tealInCup(1, 3, 5), {120, {2, 6}, 5}, 144);
  EXPECT_NEAR(more->add[0], 1, 1e-9);
  EXPECT_NEAR(more->add[1], 3, 1e-9);
  EXPECT_NEAR(more->add[2], 20, 1e-9);
}

TEST(CupTopUp, WithWhatIsThereGivesExactlyTheWantedMixAndNeverTakesAway) {
  std::mt19937 random(77);
  std::uniform_real_distribution<double> parts(0, 9), carrier(0.1, 9), amount(1, 500);
  for (int trial = 0; trial < 2000; ++trial) {
    const PourRecipe wanted = tealInCup(0.1 + parts(random), 0.1 + parts(random), carrier(random));
    const double want = amount(random), held = amount(random);
    const auto top = topUp(wanted, {held, {parts(random), 0.1 + parts(random)}, carrier(random)}, want);
    ASSERT_TRUE(top);
    EXPECT_NEAR(allOf(top->in_cup), held, 1e-9);
    EXPECT_NEAR(allOf(top->in_cup) + top->added_ml, top->total_ml, 1e-9 * top->total_ml);
    EXPECT_GE(top->total_ml, want);
    const auto fractions = pourFractions(wanted);
    for (std::size_t i = 0; i < 3; ++i) {
      EXPECT_GE(top->add[i], 0);
      EXPECT_NEAR(top->in_cup[i] + top->add[i], fractions[i] * top->total_ml, 3e-9 * top->total_ml);
    }
    if (top->too_much) {
      EXPECT_EQ(top->add[*top->too_much], 0);  // it cannot be done with less
      EXPECT_GT(top->total_ml, want);
    } else {
      EXPECT_NEAR(top->total_ml, want, 1e-9);
    }
    EXPECT_EQ(top->fresh_is_less, top->added_ml > want);
  }
}

TEST(CupTopUp, CannotMakeAMixWithoutWhatIsInTheCup) {
  for (const auto& [wanted, held] : {std::pair{tealInCup(1, 0, 5), CupContent{50, {1, 2}, 5}}, std::pair{tealInCup(1, 3, 0), CupContent{50, {1, 2}, 5}}}) {
    const auto top = topUp(wanted, held, 100);
    ASSERT_FALSE(top);
    EXPECT_EQ(top.error().code, Code::CupUnusable);
    EXPECT_EQ(exitCode(top.error().code), 3);
    EXPECT_NE(sentence(top.error()).find("taken out"), std::string::npos);
  }
}

TEST(CupTopUp, SaysWhatIsWrongWithTheContent) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const CupContent& held : {CupContent{0, {1, 2}, 5}, CupContent{-1, {1, 2}, 5}, CupContent{nan, {1, 2}, 5}, CupContent{50, {1}, 5}, CupContent{50, {1, 2, 3}, 5},
                                 CupContent{50, {0, 0}, 5}, CupContent{50, {-1, 2}, 5}, CupContent{50, {1, 2}, -1}, CupContent{50, {nan, 2}, 1}}) {
    const auto top = topUp(tealInCup(1, 3, 5), held, 100);
    ASSERT_FALSE(top);
    EXPECT_EQ(exitCode(top.error().code), 2);
    EXPECT_TRUE(sentence(top.error()).ends_with("."));
  }
}

}  // namespace
}  // namespace huewright
