#include "mix/distance.hpp"

#include <cmath>
#include <gtest/gtest.h>

#include "render/random.hpp"

namespace huewright {
namespace {

// Abramowitz and Stegun (1964), table 26.5 (from memory).
TEST(Distance, NormalQuantiles) {
  EXPECT_NEAR(normalQuantile(0.5), 0, 1e-12);
  EXPECT_NEAR(normalQuantile(0.975), 1.959963985, 1e-8);
  EXPECT_NEAR(normalQuantile(0.995), 2.575829304, 1e-8);
  EXPECT_NEAR(normalQuantile(0.001), -3.090232306, 1e-8);
}

// |e| of a unit normal in three dimensions is chi with three degrees of freedom: its 97.5 % point is the root of 9.348 (chi-square, table 26.8, from memory).
TEST(Distance, HighIsTheChiQuantileForNoDistance) {
  const DistanceRange range = distanceRange({0, 0, 0}, Mat3::identity());
  EXPECT_NEAR(range.high, std::sqrt(9.348), 0.03 * std::sqrt(9.348));
  EXPECT_EQ(range.low, 0);
  EXPECT_NEAR(distanceRange({0, 0, 0}, 0.25 * Mat3::identity()).high, 0.5 * range.high, 1e-9);
}

// Far away only the spread along the way counts: 5 ± 1.96 · 0.5.
TEST(Distance, FarAwayIsNormalAlongTheWay) {
  const DistanceRange range = distanceRange({0, 5, 0}, Mat3::diagonal({1e-6, 0.25, 1e-6}));
  EXPECT_NEAR(range.low, 4.02, 0.01);
  EXPECT_NEAR(range.high, 5.98, 0.03);
}

TEST(Distance, HighAgreesWithChance) {
  const Mat3 covariance{{{{0.5, 0.2, 0.0}, {0.2, 0.3, -0.1}, {0.0, -0.1, 0.4}}}};
  const Vec3 u{0.4, -0.8, 0.2};
  const DistanceRange range = distanceRange(u, covariance);
  // The same spread by Cholesky's factor and pseudo-random numbers.
  const double l00 = std::sqrt(0.5), l10 = 0.2 / l00, l11 = std::sqrt(0.3 - l10 * l10), l21 = -0.1 / l11, l22 = std::sqrt(0.4 - l21 * l21);
  render::Random random(9);
  int inside = 0;
  for (int i = 0; i < 40000; ++i) {
    const double a = random.normal(), b = random.normal(), c = random.normal();
    inside += length(u + Vec3{l00 * a, l10 * a + l11 * b, l21 * b + l22 * c}) <= range.high;
  }
  EXPECT_NEAR(inside / 40000.0, 0.975, 0.004);
}

TEST(Distance, MeanAboveHasItsLimits) {
  EXPECT_EQ(meanAbove(2, 0), 2);
  EXPECT_EQ(meanAbove(-2, 0), 0);
  EXPECT_NEAR(meanAbove(0, 1), 0.3989422804, 1e-9);  // density at 0
  EXPECT_NEAR(meanAbove(8, 1), 8, 1e-9);
  EXPECT_NEAR(meanAbove(1, 2) - meanAbove(-1, 2), 1, 1e-12);  // max(0, x) − max(0, −x) = x
}

}  // namespace
}  // namespace huewright
