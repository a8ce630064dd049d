#include "camera/tone_local.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <random>

namespace huewright {
namespace {

/// Fifteen dots of 0.3 on paper of 0.8, each with its own light, and a relative change of the dot alone.
std::vector<DotSpot> dots(const std::vector<double>& change, double scatter = 0.002) {
  std::vector<DotSpot> all;
  std::mt19937_64 random(3);
  std::normal_distribution<double> noise(0, scatter);
  for (std::size_t i = 0; i < change.size(); ++i) {
    const double light = 0.6 + 0.02 * static_cast<double>(i);
    const auto spot = [&](double body) {
      const double v = light * body * (1 + noise(random));
      return PaperSpot{{static_cast<double>(i), 0}, {v, 0.9 * v, 0.7 * v}, scatter};
    };
    all.push_back({spot(0.3 * (1 + change[i])), {spot(0.8), spot(0.8)}});
  }
  return all;
}

TEST(ToneSpread, DotsThatAgreeSayNothingWhateverTheLight) {
  const auto spread = toneSpread(dots(std::vector<double>(15, 0.0)));
  ASSERT_TRUE(spread);
  EXPECT_LT(*spread, 0.005);
}

TEST(ToneSpread, PartsThatWereBrightenedShow) {
  std::vector<double> change;
  for (int i = 0; i < 15; ++i) change.push_back(0.10 * std::sin(1.3 * i));
  const auto spread = toneSpread(dots(change));
  ASSERT_TRUE(spread);
  EXPECT_NEAR(*spread, 0.07, 0.025);
}

TEST(ToneSpread, AFewDirtyDotsDoNotCount) {
  std::vector<double> change(15, 0.0);
  change[2] = -0.4, change[9] = 0.3, change[11] = -0.2;
  EXPECT_LT(toneSpread(dots(change)).value(), 0.01);
}

TEST(ToneSpread, TooFewDotsSayNothing) {
  EXPECT_FALSE(toneSpread(dots(std::vector<double>(3, 0.0))));
  auto bare = dots(std::vector<double>(6, 0.0));
  for (DotSpot& d : bare) d.paper.clear();
  EXPECT_FALSE(toneSpread(bare));
}

}  // namespace
}  // namespace huewright
