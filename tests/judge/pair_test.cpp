#include "judge/pair.hpp"

#include <cmath>
#include <gtest/gtest.h>

#include "colour/delta_e.hpp"

namespace huewright {
namespace {

/// A reading of one panel and card whose brightness the place has changed by these factors.
Reading shot(const Lab<D50>& panel, const Lab<D50>& card, double on_panel, double on_card) {
  Reading r;
  r.panels.resize(1);
  const auto lit = [](const Lab<D50>& lab, double by) {
    const Vec3 v = by * toVec(toXyz(lab));
    ColourReading c;
    c.xyz = {v[0], v[1], v[2]};
    c.lab = toLab(c.xyz);
    c.pixels = 1000;
    return c;
  };
  r.panels[0] = lit(panel, on_panel);
  r.card = lit(card, on_card);
  r.influences = {{Part::Texture, {{0.1, 0, 0}, {}}}, {Part::Texture, {{}, {0.1, 0, 0}}}, {Part::Matrix, {{0.2, 1, 0}, {0.2, 0.9, 0}}, Renewal::Never}};
  refreshDeviations(r);
  return r;
}

const Lab<D50> kPairPanel{41, -28, -14}, kPairCard{43, -29, -13};

TEST(AveragePair, WhatThePlaceDoesCancels) {
  const double up = std::exp(0.05), down = std::exp(-0.05);
  const auto pair = averagePair(shot(kPairPanel, kPairCard, up, down), shot(kPairPanel, kPairCard, down, up));
  ASSERT_TRUE(pair);
  EXPECT_LT(deltaE2000(pair->reading.panels[0].lab, kPairPanel), 1e-9);
  EXPECT_LT(deltaE2000(pair->reading.card.lab, kPairCard), 1e-9);
  EXPECT_NEAR(pair->brightness, 0.2, 1e-9);
  EXPECT_GT(pair->apart, 2);
  EXPECT_LT(pair->other, 0.15 * pair->apart);  // brightness explains it all but for the curve of L*
}

TEST(AveragePair, EachShotsOwnNoiseIsHalvedInVarianceAndTheSharedPartStays) {
  const Reading one = shot(kPairPanel, kPairCard, 1, 1);
  const auto pair = averagePair(one, one);
  ASSERT_TRUE(pair);
  EXPECT_EQ(pair->apart, 0);
  const Vec3 before = one.panels[0].lab_sd, after = pair->reading.panels[0].lab_sd;
  EXPECT_NEAR(after[0] * after[0], 0.2 * 0.2 + 0.5 * 0.1 * 0.1, 1e-12);
  EXPECT_NEAR(before[0] * before[0], 0.2 * 0.2 + 0.1 * 0.1, 1e-12);
  EXPECT_NEAR(after[1], 1, 1e-12);
}

TEST(AveragePair, AChangeOfHueIsNotTheLightsDoing) {
  Lab<D50> other = kPairPanel;
  other.a += 4;
  const auto pair = averagePair(shot(kPairPanel, kPairCard, 1, 1), shot(other, kPairCard, 1, 1));
  ASSERT_TRUE(pair);
  EXPECT_GT(pair->other, 1);
  EXPECT_GT(pair->other, 3 * pair->other_sd);
}

TEST(AveragePair, OtherThingsAreRefused) {
  const auto pair = averagePair(shot(kPairPanel, kPairCard, 1, 1), shot({60, 40, 30}, kPairCard, 1, 1));
  ASSERT_FALSE(pair);
  EXPECT_EQ(pair.error().code, Code::SwappedUnusable);
  Reading numbers = shot(kPairPanel, kPairCard, 1, 1);
  numbers.card_in_photo = false;
  EXPECT_FALSE(averagePair(numbers, shot(kPairPanel, kPairCard, 1, 1)));
}

}  // namespace
}  // namespace huewright
