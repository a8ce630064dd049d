#include "camera/chart_light.hpp"

#include <cmath>
#include <gtest/gtest.h>

namespace huewright {
namespace {

/// Patches of equal weight whose fitted brightness is off by a level and a slope, without any other error but `scatter`.
std::vector<LitPatch> patches(double level, double x, double y, double scatter) {
  std::vector<LitPatch> out;
  for (int row = 0; row < 4; ++row)
    for (int column = 0; column < 6; ++column) {
      const Point at{0.4 * column - 1, row / 1.5 - 1};
      const double off = 20 * (level + x * at.x + y * at.y);
      out.push_back({{20, 0, 0}, {off, (row + column) % 2 ? scatter : -scatter, 0}, at});
    }
  return out;
}

TEST(ChartLight, ASlopeIsFoundWhateverTheLevel) {
  for (const double level : {0.0, 0.02, -0.3}) {
    const auto first = refinedSlope(patches(level, 0.08, -0.05, 0.1), {}, 18);
    EXPECT_GT(first.log[0], 0) << level;
    EXPECT_LT(first.log[1], 0) << level;
    if (level < -0.1) continue;  // far from the level, the scatter looks large and the slope is held
    const auto second = refinedSlope(patches(level, 0.08 - first.log[0], -0.05 - first.log[1], 0.1), first, 18);
    EXPECT_NEAR(second.log[0], 0.08, 0.004) << level;
    EXPECT_NEAR(second.log[1], -0.05, 0.004) << level;
  }
}

TEST(ChartLight, ScatterHoldsTheSlopeTowardsNothing) {
  const auto sure = refinedSlope(patches(0, 0.05, 0, 0.1), {}, 18), unsure = refinedSlope(patches(0, 0.05, 0, 5), {}, 18);
  EXPECT_NEAR(sure.log[0], 0.05, 0.003);
  EXPECT_LT(unsure.log[0], 0.03);
  EXPECT_GT(unsure.log[0], 0);
}

// Gauss-Markov: of a straight line through n equal errors, spread σ, the slope's variance is σ² over the sum of squared places.
TEST(ChartLight, ItsSpreadIsThatOfLeastSquares) {
  const auto some = patches(0, 0, 0, 0.2);
  const SlopeOver slope = refinedSlope(some, {}, 0);
  double squares = 0, places = 0;
  for (const LitPatch& p : some) squares += dot(p.off, p.off), places += p.place.x * p.place.x;
  const double free_variance = squares / 72 / (20 * 20);  // 24 patches of three rows, in units of the natural log
  const double expected = 1 / (places / free_variance + 1 / (0.05 * 0.05));  // with the prior
  EXPECT_NEAR(slope.sd[0], std::sqrt(expected), 1e-9);
  EXPECT_GT(refinedSlope(patches(0, 0, 0, 1.0), {}, 0).sd[0], slope.sd[0]);
}

TEST(ChartLight, TooFewPatchesChangeNothing) {
  auto few = patches(0, 0.1, 0.1, 0);
  few.resize(3);
  const SlopeOver now{{0.01, 0.02}, {0.05, 0.05}}, after = refinedSlope(few, now, 18);
  EXPECT_EQ(after.log, now.log);
  EXPECT_EQ(after.sd, now.sd);
}

}  // namespace
}  // namespace huewright
