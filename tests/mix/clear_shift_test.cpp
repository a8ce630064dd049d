#include "mix/clear_shift.hpp"

#include <gtest/gtest.h>
#include <vector>

#include "colour/delta_e.hpp"
#include "mix/mix_support.hpp"

namespace huewright {
namespace {

using namespace mixing;

// A made-up truth that is no straight line, so not the regression's own: without clear, a dry surface throws back 4 % of white everywhere, and the film under it looks paler, the
// more so the darker it is.
ClearedPair pairOf(double share, double coats, double sigma, render::Random& random) {
  render::Paint paint;
  paint.share = share;
  paint.coats = coats;
  const Lab<D50> cleared = render::labOf(paint);
  Vec3 dry = sharpened(cleared);
  for (double& v : dry) v = 0.04 + v * (1.15 - 0.2 * v);
  return {readWithNoise(labOfSharpened(dry), sigma, random), readWithNoise(cleared, sigma, random)};
}

TEST(ClearShiftTest, WithoutPairsNothingMovesAndLittleIsSure) {
  const ClearShift shift({});
  const ClearedColour out = shift.cleared({50, -20, -6});
  EXPECT_LT(deltaE2000(out.lab, {50, -20, -6}), 1e-9);
  EXPECT_GT(std::sqrt(out.covariance(0, 0)), 3);
}

TEST(ClearShiftTest, LearnsFromTwoHalfClearedPanels) {
  render::Random random(4);
  const std::vector<ClearedPair> pairs{pairOf(0.25, 3, 0.2, random), pairOf(0.4, 4, 0.2, random)};
  const ClearShift shift(pairs);
  const ClearedPair other = pairOf(0.33, 4, 0, random);
  EXPECT_GT(deltaE2000(other.uncleared, other.cleared), 4);
  EXPECT_LT(deltaE2000(shift.cleared(other.uncleared).lab, other.cleared), 0.7);
}

// The stated spread against the truth: chi-square by hand over many draws; far from the pairs it must be wider.
TEST(ClearShiftTest, SpreadHoldsTheTruth) {
  render::Random random(8);
  int inside = 0;
  constexpr int kTrials = 60;
  for (int trial = 0; trial < kTrials; ++trial) {
    const std::vector<ClearedPair> pairs{pairOf(0.25, 3, 0.3, random), pairOf(0.45, 4, 0.3, random)};
    const ClearShift shift(pairs);
    const ClearedPair other = pairOf(random.uniform(0.2, 0.5), random.uniform(2, 5), 0, random);
    const ClearedColour out = shift.cleared(other.uncleared);
    const Vec3 miss = toVec(other.cleared) - toVec(out.lab);
    inside += dot(miss, inverse(out.covariance) * miss) < 7.815;  // 95 % of chi-square with three degrees of freedom (from memory)
  }
  EXPECT_GE(inside, 0.9 * kTrials);
  const std::vector<ClearedPair> pairs{pairOf(0.25, 3, 0.1, random), pairOf(0.3, 3, 0.1, random)};
  const ClearShift shift(pairs);
  EXPECT_GT(trace(shift.cleared({90, 0, 0}).covariance), trace(shift.cleared(pairs[0].uncleared).covariance));
}

}  // namespace
}  // namespace huewright
