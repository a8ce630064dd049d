#include "paper/plot_axis.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

TEST(PlotAxis, StepsAreOneTwoOrFive) {
  struct Row { double span; int most; double step; };
  // Worked by hand.
  for (const Row& row : {Row{10, 10, 1}, Row{10, 8, 2}, Row{12, 8, 2}, Row{0.3, 8, 0.05}, Row{0.7, 8, 0.1}, Row{100, 8, 20}, Row{41, 8, 10}, Row{3, 8, 0.5}, Row{1, 1, 1}, Row{6, 1, 10}, Row{0.004, 8, 0.0005}})
    EXPECT_NEAR(tickStep(row.span, row.most), row.step, 1e-12) << row.span;
}

TEST(PlotAxis, TicksLieWithinAndHoldTheEnds) {
  EXPECT_EQ(ticksWithin(0, 12, 8), (std::vector<double>{0, 2, 4, 6, 8, 10, 12}));
  EXPECT_EQ(ticksWithin(10, 70, 8), (std::vector<double>{10, 20, 30, 40, 50, 60, 70}));
  EXPECT_EQ(ticksWithin(13, 29, 8), (std::vector<double>{14, 16, 18, 20, 22, 24, 26, 28}));
  const auto tenths = ticksWithin(0.1, 0.3, 8);  // 0.3 / 0.05 is not quite 6
  ASSERT_EQ(tenths.size(), 5U);
  EXPECT_NEAR(tenths.front(), 0.1, 1e-12);
  EXPECT_NEAR(tenths.back(), 0.3, 1e-12);
}

TEST(PlotAxis, TheEndIsTheNextTick) {
  EXPECT_NEAR(scaleEnd(11.3, 8), 12, 1e-12);
  EXPECT_NEAR(scaleEnd(12, 8), 12, 1e-12);
  EXPECT_NEAR(scaleEnd(0.3, 8), 0.3, 1e-12);
  EXPECT_NEAR(scaleEnd(20.4, 8), 25, 1e-12);
}

TEST(PlotAxis, ValuesLieWhereTheyShould) {
  const PlotAxis across{0.1, 0.7, 20, 140}, upward{0, 12, 100, 4};
  EXPECT_NEAR(across.at(0.1), 20, 1e-12);
  EXPECT_NEAR(across.at(0.4), 80, 1e-12);
  EXPECT_NEAR(upward.at(0), 100, 1e-12);
  EXPECT_NEAR(upward.at(3), 76, 1e-12);
}

TEST(PlotAxis, Words) {
  EXPECT_EQ(tickWords(0.0), "0");
  EXPECT_EQ(tickWords(-0.0), "0");
  EXPECT_EQ(tickWords(2.5), "2.5");
  EXPECT_EQ(tickWords(3 * 0.05), "0.15");
  EXPECT_EQ(tickWords(12), "12");
}

}  // namespace
}  // namespace huewright
