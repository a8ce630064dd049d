#include "mix/aim.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <numeric>

#include "mix/mix_scene.hpp"
#include "mix/mix_support.hpp"

namespace huewright {
namespace {

using namespace mixing;

const Lab<D50> kAimGround{79, 0, 2};

Lab<D50> madeLab(double share, double coats) {
  render::Random random(1);
  return made(share, coats, 1, 0, random).lab;
}

// Counted by hand: with totals up to 3, 0:1 1:0 1:1 1:2 2:1; in general Euler's totients, 1 + Σ φ(n): 2, 3, 5, 7, 11, 13, 19, 23 for 1 to 8.
TEST(Aim, WholePartsInLowestTerms) {
  const std::size_t counts[] = {2, 3, 5, 7, 11, 13, 19, 23};
  for (int total = 1; total <= 8; ++total) EXPECT_EQ(wholeParts(2, total, false).size(), counts[total - 1]) << total;
  for (const auto& parts : wholeParts(3, 6, false)) {
    EXPECT_LE(std::accumulate(parts.begin(), parts.end(), 0), 6);
    EXPECT_EQ(std::gcd(std::gcd(parts[0], parts[1]), parts[2]), 1);
  }
  for (const auto& parts : wholeParts(2, 8, true)) EXPECT_TRUE(parts[0] == 1 || parts[1] == 1);
  EXPECT_EQ(partsWords({1, 4}), "1:4");
}

TEST(Aim, SeesATrueMatchAndHowFarOthersAreOff) {
  const Aim aim(knowingPredictor(), madeLab(0.25, 4), kAimGround, 1 / 7.0);
  const MixChoice match = aim.withRange(aim.at({1, 3}, 4));
  EXPECT_LT(match.de00, 0.1);
  EXPECT_NEAR(match.over, 0, 0.05);
  EXPECT_EQ(match.low, 0);
  EXPECT_LT(match.high, 1);
  EXPECT_EQ(match.share(), 0.25);
  // One coat more is one coat too deep, one less the reverse; the score minds the first more.
  const MixChoice more = aim.at({1, 3}, 5), less = aim.at({1, 3}, 3);
  EXPECT_NEAR(more.over, 1, 0.2);
  EXPECT_NEAR(less.over, -1, 0.25);
  EXPECT_NEAR(more.de00, deltaE2000(madeLab(0.25, 5), madeLab(0.25, 4)), 0.15);
  EXPECT_GT(more.score - more.de00, less.score - less.de00 + 0.5 * kOvershoot);
}

TEST(Aim, FindsTheShareThatMadeTheCard) {
  for (const double share : {0.1, 0.33, 0.62}) {
    const Aim aim(knowingPredictor(), madeLab(share, 3), kAimGround, 1 / 7.0);
    const BestShare best = aim.bestShare(3);
    EXPECT_NEAR(best.share, share, 0.01);
    EXPECT_LT(best.de00, 0.1);
    EXPECT_LT(best.sd, 0.03);
  }
}

// The stated spread of the best share against its scatter over many series: the mean square of (found − true) / sd is 1.
TEST(Aim, SpreadOfTheShareIsOfTheRightSize) {
  render::Random random(11);
  double sum = 0;
  int inside = 0;
  constexpr int kTrials = 60;
  for (int trial = 0; trial < kTrials; ++trial) {
    std::vector<PanelReading> panels;
    for (const double share : {0.2, 0.5})
      for (const double coats : {3.0, 5.0}) panels.push_back(made(share, coats, 1 + 0.05 * random.normal(), 0.3, random));
    auto fit = fitTints(panels, loosePriors(), {.sigma = 0.3});
    ASSERT_TRUE(fit);
    const Predictor predictor(std::move(*fit), panels);
    const BestShare best = Aim(predictor, madeLab(0.35, 4), kAimGround, 1 / 7.0).bestShare(4);
    const double z = (best.share - 0.35) / best.sd;
    sum += z * z;
    inside += std::abs(z) < 1.96;
  }
  EXPECT_GT(sum / kTrials, 0.35);
  EXPECT_LT(sum / kTrials, 1.5);
  EXPECT_GE(inside, 0.9 * kTrials);
}

}  // namespace
}  // namespace huewright
