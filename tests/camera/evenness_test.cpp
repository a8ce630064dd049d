#include "camera/evenness.hpp"

#include <cmath>
#include <gtest/gtest.h>

namespace huewright {
namespace {

Patch patchAt(double x, double slope, double sd = 1e-6) {
  Patch p;
  p.centre = {x, 100};
  p.trend = {slope, 0};
  p.trend_sd = {sd, sd};
  p.pixels = 200 * 200;
  return p;
}

TEST(Evenness, ACommonSlopeIsFollowedFromCentreToCentre) {
  // 4 % brighter over 400 pixels, seen in both.
  const Evenness e = evennessBetween(patchAt(500, 1e-4), patchAt(100, 1e-4), Light());
  EXPECT_NEAR(e.log_ratio, 0.04, 0.004);
  EXPECT_LT(e.sd, 0.01);
}

// The trapezoid rule's error grows fast with the way: what two slopes do not tell of the course between them.
TEST(Evenness, FarApartSlopesAreBelievedLess) {
  const Evenness near = evennessBetween(patchAt(400, 1e-4), patchAt(100, 1e-4), Light()), far = evennessBetween(patchAt(1300, 1e-4), patchAt(100, 1e-4), Light());
  EXPECT_GT(near.log_ratio, 0.98 * 0.03);
  EXPECT_LT(far.log_ratio, 0.5 * 0.12);
  EXPECT_GT(far.sd, 5 * near.sd);
  EXPECT_LT(far.sd, 0.05);
}

TEST(Evenness, AVignettesTwoSidesCancel) {
  const Evenness e = evennessBetween(patchAt(500, -1e-4), patchAt(100, 1e-4), Light());
  EXPECT_NEAR(e.log_ratio, 0, 1e-12);
  EXPECT_GT(e.sd, 0.01);  // slopes that disagree leave the course between unknown
}

TEST(Evenness, NoisySlopesAreNotBelieved) {
  const Evenness e = evennessBetween(patchAt(500, 1e-4, 1e-3), patchAt(100, 1e-4, 1e-3), Light());
  EXPECT_LT(std::abs(e.log_ratio), 0.002);
  EXPECT_NEAR(e.sd, 0.05, 0.002);  // what set-ups have, and no more
}

TEST(Evenness, NothingReadableNothingChanged) {
  const Evenness e = evennessBetween(patchAt(500, 1e-4, 0), patchAt(100, 1e-4), Light());
  EXPECT_EQ(e.log_ratio, 0);
  EXPECT_GT(e.sd, 0);
}

// Two greys already take a fall-off away: what is left of the slopes is nothing, and must not be taken off twice.
TEST(Evenness, WhatTheGreysCorrectIsNotCorrectedAgain) {
  std::vector<Patch> greys(2);
  for (std::size_t i = 0; i < 2; ++i) {
    const double level = 0.2 * std::exp(1e-4 * 600.0 * static_cast<double>(i));
    greys[i].mean = {level * kWhite<D50>[0], level, level * kWhite<D50>[2]};
    greys[i].pixels = 1000;
    greys[i].centre = {600.0 * static_cast<double>(i), 100};
  }
  const auto light = Light::fromGreys(greys, 0.2);
  ASSERT_TRUE(light);
  const Evenness e = evennessBetween(patchAt(500, 1e-4), patchAt(100, 1e-4), *light);
  EXPECT_NEAR(e.log_ratio, 0, 1e-6);
}

Patch greyWithSlopes(double red, double green, double blue, double sd) {
  Patch p;
  for (std::size_t k = 0; k < 3; ++k) {
    p.channel_trend[k] = {k == 0 ? red : k == 1 ? green : blue, 0};
    p.channel_trend_sd[k] = {sd, sd};
  }
  return p;
}

TEST(ColourDrift, AMixOfLampsShowsAsChannelsThatPart) {
  // Red grows by 2 % over 400 pixels, blue falls by 2 %.
  EXPECT_NEAR(colourDriftOver(greyWithSlopes(5e-5, 0, -5e-5, 1e-7), {500, 100}, {100, 100}), 0.02, 1e-9);
}

TEST(ColourDrift, AFallOffAloneIsNoDrift) {
  EXPECT_EQ(colourDriftOver(greyWithSlopes(1e-4, 1e-4, 1e-4, 1e-7), {500, 100}, {100, 100}), 0);
}

TEST(ColourDrift, NoiseIsNoDrift) {
  EXPECT_EQ(colourDriftOver(greyWithSlopes(5e-5, 0, -5e-5, 5e-5), {500, 100}, {100, 100}), 0);
}

}  // namespace
}  // namespace huewright
