#include "camera/robust.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <random>

namespace huewright {
namespace {

TEST(Median, OddAndEven) {
  EXPECT_EQ(medianOf({3, 1, 2}), 2);
  EXPECT_EQ(medianOf({4, 1, 3, 2}), 3);  // the upper of the two middle ones
}

TEST(Shorth, SitsInTheDenseHalf) {
  const Shorth s = shorth({1.0, 1.1, 1.2, 1.15, 1.05, 9, 20, 5, 7});
  EXPECT_NEAR(s.middle, 1.1, 0.051);
  EXPECT_NEAR(s.half, 0.1, 0.051);
}

TEST(FitPlane, ExactOnAPlane) {
  std::vector<Spot> samples;
  for (int x = 0; x < 7; ++x)
    for (int y = 0; y < 5; ++y) samples.push_back({10.0 + x, 20.0 + y, 3 + 0.5 * x - 0.25 * y, 1.0 + x});
  const Plane p = fitPlane(samples);
  EXPECT_NEAR(p.along_x, 0.5, 1e-12);
  EXPECT_NEAR(p.along_y, -0.25, 1e-12);
  EXPECT_NEAR(p(10, 20), 3, 1e-12);
  EXPECT_NEAR(p.sd_x, 0, 1e-9);
}

// The stated deviation of a slope is the scatter of slopes over repeats.
TEST(FitPlane, SlopeDeviationIsTrue) {
  std::mt19937_64 rng(2);
  std::normal_distribution<double> n;
  double seen = 0, stated = 0;
  constexpr int kRepeats = 2000;
  for (int i = 0; i < kRepeats; ++i) {
    std::vector<Spot> samples;
    for (int x = 0; x < 6; ++x)
      for (int y = 0; y < 6; ++y) samples.push_back({1.0 * x, 1.0 * y, 1 + 0.1 * n(rng), 1});
    const Plane p = fitPlane(samples);
    seen += p.along_x * p.along_x / kRepeats;
    stated += p.sd_x * p.sd_x / kRepeats;
  }
  EXPECT_NEAR(std::sqrt(stated / seen), 1, 0.06);
}

TEST(FitPlane, ALineOfSamplesGivesALevelPlane) {
  const Plane p = fitPlane({{0, 0, 1, 1}, {1, 1, 2, 1}, {2, 2, 3, 1}});
  EXPECT_EQ(p.along_x, 0);
  EXPECT_EQ(p.at, 2);
}

TEST(RobustPlane, FortyFivePercentWildValuesDoNotTiltIt) {
  std::mt19937_64 rng(6);
  std::normal_distribution<double> n;
  std::vector<Spot> samples;
  for (int x = 0; x < 40; ++x)
    for (int y = 0; y < 30; ++y) samples.push_back({1.0 * x, 1.0 * y, x < 18 ? 3 + n(rng) : 1 + 0.002 * y + 0.01 * n(rng), 1});
  const auto [plane, spread] = robustPlane(samples);
  EXPECT_NEAR(plane(30, 15), 1.03, 0.005);
  // The shortest half then holds 91 % of the good values: ±1.69 of their deviations, read as ±0.6745.
  EXPECT_GT(spread, 0.009);
  EXPECT_LT(spread, 0.01 * 1.69 / 0.6745 * 1.1);
}

// By hand: of twelve values two go at either end; what is held at the inner ends gives the spread.
TEST(TrimmedMean, LeavesOutTheEndsAndHoldsThemForTheError) {
  const auto [mean, error] = trimmedMean({1, 2, 3, 4, 5, 6, 7, 8, -900, 900, -800, 800});
  EXPECT_NEAR(mean, 4.5, 1e-12);
  const double squares = 3 * (3.5 * 3.5) * 2 + 2 * (2.5 * 2.5 + 1.5 * 1.5 + 0.5 * 0.5);  // about 4.5: three ones, three eights, 2 to 7
  EXPECT_NEAR(error, std::sqrt(squares / (8 * 7)), 1e-12);
  EXPECT_EQ(trimmedMean({1, 2, 3}).second, 1e9);
}

}  // namespace
}  // namespace huewright
