#include "camera/chart_light.hpp"

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
    EXPECT_GT(first[0], 0) << level;
    EXPECT_LT(first[1], 0) << level;
    if (level < -0.1) continue;  // far from the level, the scatter looks large and the slope is held
    const auto second = refinedSlope(patches(level, 0.08 - first[0], -0.05 - first[1], 0.1), first, 18);
    EXPECT_NEAR(second[0], 0.08, 0.004) << level;
    EXPECT_NEAR(second[1], -0.05, 0.004) << level;
  }
}

TEST(ChartLight, ScatterHoldsTheSlopeTowardsNothing) {
  const auto sure = refinedSlope(patches(0, 0.05, 0, 0.1), {}, 18), unsure = refinedSlope(patches(0, 0.05, 0, 5), {}, 18);
  EXPECT_NEAR(sure[0], 0.05, 0.003);
  EXPECT_LT(unsure[0], 0.03);
  EXPECT_GT(unsure[0], 0);
}

TEST(ChartLight, TooFewPatchesChangeNothing) {
  auto few = patches(0, 0.1, 0.1, 0);
  few.resize(3);
  EXPECT_EQ(refinedSlope(few, {0.01, 0.02}, 18), (std::array{0.01, 0.02}));
}

}  // namespace
}  // namespace huewright
