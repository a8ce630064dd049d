#include "judge/interval.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <random>


namespace huewright {
namespace {

// χ² with 3 degrees of freedom, quantiles of the usual tables (NIST/SEMATECH e-Handbook, section 1.3.6.7.4): 0.95 at 7.815, 0.99 at 11.345.
TEST(ProbabilityInBall, ChiSquareTable) {
  struct Row {
    double chi2, p;
  };
  for (const Row& r : {Row{6.251, 0.90}, Row{7.815, 0.95}, Row{9.348, 0.975}, Row{11.345, 0.99}})
    EXPECT_NEAR(probabilityInBall({0, 0, 0}, Mat3::identity(), std::sqrt(r.chi2)), r.p, 1e-4);
}

TEST(ProbabilityInBall, AgreesWithCounting) {
  std::mt19937_64 rng(8);
  std::normal_distribution<double> n;
  for (const Vec3& sd : {Vec3{0.2, 0.5, 1.1}, Vec3{0.02, 0.03, 1}, Vec3{1, 1, 1}})
    for (const Vec3& mean : {Vec3{0, 0, 0}, Vec3{0.4, -0.3, 0.9}, Vec3{2, 0, 0}}) {
      constexpr int kTrials = 40000;
      int in = 0;
      for (int i = 0; i < kTrials; ++i) in += length(mean + Vec3{sd[0] * n(rng), sd[1] * n(rng), sd[2] * n(rng)}) < 1.3;
      const double p = probabilityInBall(mean, Mat3::diagonal({sd[0] * sd[0], sd[1] * sd[1], sd[2] * sd[2]}), 1.3);
      EXPECT_NEAR(p, static_cast<double>(in) / kTrials, 4 * 0.5 / std::sqrt(kTrials) + 1e-4);
    }
}

/// A covariance with given standard deviations along turned axes.
Mat3 turned(const Vec3& sd) {
  const double c = std::cos(0.7), s = std::sin(0.7);
  const Mat3 about_z{{{{c, -s, 0}, {s, c, 0}, {0, 0, 1}}}}, about_x{{{{1, 0, 0}, {0, c, -s}, {0, s, c}}}};
  const Mat3 r = about_z * about_x;
  return r * Mat3::diagonal({sd[0] * sd[0], sd[1] * sd[1], sd[2] * sd[2]}) * transpose(r);
}

// Whatever the true distance and the shape of the noise, the stated 95 % interval must hold the truth in about 95 % of the trials, and the
// low end of a true zero must be zero.
TEST(DistanceInterval, CoversKnownTruths) {
  std::mt19937_64 rng(95);
  std::normal_distribution<double> n;
  for (const Vec3& sd : {Vec3{0.3, 0.3, 0.3}, Vec3{0.03, 0.1, 0.3}, Vec3{0.02, 0.25, 0.3}}) {
    const Mat3 covariance = turned(sd);
    const Eigen3 e = eigenSymmetric(covariance);
    for (const double truth : {0.0, 0.2, 0.6, 1.5, 4.0}) {
      constexpr int kTrials = 400;
      int covered = 0, low_right = 0;
      for (int i = 0; i < kTrials; ++i) {
        Vec3 way{n(rng), n(rng), n(rng)};
        Vec3 u = (truth / length(way)) * way;
        Vec3 noise{};
        for (std::size_t k = 0; k < 3; ++k) noise[k] = std::sqrt(std::max(0.0, e.values[k])) * n(rng);
        u = u + e.vectors * noise;
        const Interval got = distanceInterval(u, covariance);
        covered += got.low <= truth && truth <= got.high;
        low_right += got.low <= truth;
      }
      EXPECT_GE(covered, kTrials * 0.915) << "truth " << truth << ", sd " << sd[0] << " " << sd[1];
      EXPECT_GE(low_right, kTrials * 0.95) << "truth " << truth;
    }
  }
}

TEST(DistanceInterval, FarFromZeroItIsTheNormalInterval) {
  const Interval got = distanceInterval({10, 0, 0}, Mat3::diagonal({0.04, 0.04, 0.04}));
  EXPECT_NEAR(got.low, 10 - 1.96 * 0.2, 0.01);
  EXPECT_NEAR(got.high, 10 + 1.96 * 0.2, 0.01);
}

TEST(DistanceInterval, AnExactZeroStillPromisesNoMoreThanItCan) {
  const Interval got = distanceInterval({0, 0, 0}, Mat3::diagonal({0.04, 0.04, 0.04}));
  EXPECT_EQ(got.low, 0);
  EXPECT_GT(got.high, 0.3);
}

TEST(DistanceInterval, NoNoiseGivesAPoint) {
  const Interval got = distanceInterval({3, 0, 0}, Mat3{});
  EXPECT_NEAR(got.low, 3, 2e-3);
  EXPECT_NEAR(got.high, 3, 2e-3);
}

}  // namespace
}  // namespace huewright
