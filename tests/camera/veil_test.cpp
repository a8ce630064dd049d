#include "camera/veil.hpp"

#include <cmath>
#include <gtest/gtest.h>

#include "camera/light.hpp"

namespace huewright {
namespace {

/// A chip with that luminance factor and veil, photographed under a coloured light at that exposure.
Patch chip(double body, const Vec3& veil, const Mat3& as_photographed) {
  Patch p;
  const Vec3 xyz = as_photographed * (body * kWhite<D50>) + veil;
  p.mean = {xyz[0], xyz[1], xyz[2]};
  p.of_mean = 1e-12 * Mat3::identity();
  p.pixels = 900;
  return p;
}

const Mat3 kShot = inverse(kBradford) * Mat3::diagonal({0.8, 0.6, 0.4}) * kBradford;

TEST(Veil, WhatTheChipMirrorsIsFoundInThePhotosOwnUnits) {
  const Vec3 room{0.010, 0.009, 0.006};
  const auto veil = veilOf(chip(0.004, room, kShot), inverse(kShot));
  ASSERT_TRUE(veil);
  EXPECT_LT(length(veil->xyz - room), 1e-12);
  EXPECT_NEAR(veil->share, (inverse(kShot) * room)[1], 1e-12);
}

TEST(Veil, ItsDeviationGrowsWithWhatTheRoomMayBeElsewhere) {
  const auto dark = veilOf(chip(0.004, {0, 0, 0}, kShot), inverse(kShot)), bright = veilOf(chip(0.004, {0.03, 0.03, 0.02}, kShot), inverse(kShot));
  ASSERT_TRUE(dark && bright);
  EXPECT_EQ(dark->share, 0);
  EXPECT_GT(dark->sd, 0);
  EXPECT_GT(bright->sd, 2 * dark->sd);
}

TEST(Veil, ABlackerBodyThanExpectedTakesNothingOff) {
  const auto veil = veilOf(chip(0.001, {0, 0, 0}, kShot), inverse(kShot));
  ASSERT_TRUE(veil);
  EXPECT_EQ(veil->xyz, Vec3{});
}

TEST(Veil, WhatIsNoBlackChipIsRefused) {
  const auto grey = veilOf(chip(0.18, {0, 0, 0}, kShot), inverse(kShot));
  ASSERT_FALSE(grey);
  EXPECT_EQ(grey.error().code, Code::BlackUnusable);
  Patch glare = chip(0.004, {0, 0, 0}, kShot);
  glare.masked = 0.95;
  EXPECT_FALSE(veilOf(glare, inverse(kShot)));
  EXPECT_FALSE(veilOf(Patch{}, inverse(kShot)));
}

// Fresnel at right angles: ((n − 1) / (n + 1))² = 4 % for n = 1.5, of a room that is a twentieth as bright as the light on the panel.
TEST(Veil, WithoutAChipTheUsualOneIsOfWhiteInThePhotosOwnLight) {
  const Veil veil = usualVeil(inverse(kShot));
  EXPECT_NEAR(veil.share, std::pow(0.5 / 2.5, 2) / 20, 1e-12);
  EXPECT_LT(length(inverse(kShot) * veil.xyz - veil.share * kWhite<D50>), 1e-12);
  EXPECT_GT(veil.sd, 0);
}

}  // namespace
}  // namespace huewright
