#include "judge/through_profile.hpp"

#include <cmath>
#include <gtest/gtest.h>

#include "colour/adapt.hpp"
#include "colour/rgb.hpp"
#include "photo/device.hpp"

namespace huewright {
namespace {

const Xyz<D50> kGrey{0.19 * kWhite<D50>[0], 0.19, 0.19 * kWhite<D50>[2]};

PhotoFacts rawFacts() {
  PhotoFacts facts;
  facts.camera_rgb = true;
  facts.builtin = kSrgbToXyzD50;
  facts.balance = Vec3{2, 1, 1.5};
  return facts;
}

/// A map whose matrix takes balanced camera values as linear sRGB: what the photo's own facts say as well.
ColourMap sameMap() {
  ColourMap map;
  map.device = DeviceKind::CameraRgb;
  map.balance = {2, 1, 1.5};
  map.matrix = kSrgbToXyzD50;
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) map.terms[r][c] = kSrgbToXyzD50(r, c);
  return map;
}

Named region(const Xyz<D50>& xyz) {
  Named named;
  named.patch.mean = xyz;
  named.patch.of_mean = 1e-6 * Mat3::identity();
  named.patch.trend = {0.001, -0.002};
  named.patch.trend_sd = {0.0001, 0.0001};
  return named;
}

Samples samples() {
  Samples s;
  s.coloured = {region({0.10, 0.15, 0.20}), region({0.12, 0.16, 0.18})};
  s.greys = {region({0.19 * kWhite<D50>[0], 0.19, 0.19 * kWhite<D50>[2]})};
  s.paper = {{{5, 5}, kBradford * (0.8 * kWhite<D50>), 0.01}};
  return s;
}

TEST(CarryThrough, TheSameMapChangesNothing) {
  Samples s = samples();
  const auto through = carryThrough(sameMap(), true, rawFacts(), kGrey, s);
  const Samples before = samples();
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_LT(length(toVec(s.coloured[i].patch.mean) - toVec(before.coloured[i].patch.mean)), 1e-12);
    EXPECT_NEAR(s.coloured[i].patch.trend[0], 0.001, 1e-9);
    EXPECT_LT(length(through.devices[i] - inverse(deviceToXyz(rawFacts())) * toVec(before.coloured[i].patch.mean)), 1e-12);
  }
  EXPECT_LT(length(s.paper[0].sharp - before.paper[0].sharp), 1e-12);
  EXPECT_EQ(through.gain, (Vec3{1, 1, 1}));
}

TEST(CarryThrough, AStoredMapIsBroughtToThePhotoByItsGrey) {
  // The photo is half as bright, and redder.
  Samples s = samples();
  const Mat3 cast = kSrgbToXyzD50 * Mat3::diagonal({0.6, 0.5, 0.5}) * kXyzD50ToSrgb;
  for (auto* list : {&s.coloured, &s.greys})
    for (Named& n : *list) {
      const Vec3 v = cast * toVec(n.patch.mean);
      n.patch.mean = {v[0], v[1], v[2]};
    }
  const auto through = carryThrough(sameMap(), false, rawFacts(), kGrey, s);
  EXPECT_LT(length(toVec(s.coloured[0].patch.mean) - Vec3{0.10, 0.15, 0.20}), 1e-9);
  EXPECT_NEAR(s.greys[0].patch.mean.Y, 0.19, 1e-9);
  EXPECT_NEAR(through.colour_off, std::log(0.6 / 0.5), 1e-9);
}

TEST(CarryThrough, AGreyWithATintTintsNothingElse) {
  Samples s = samples();
  const Xyz<D50> bluish = toXyz(Lab<D50>{50, 0.5, -3});
  s.greys[0].patch.mean = bluish;
  const auto through = carryThrough(sameMap(), false, rawFacts(), bluish, s);
  EXPECT_LT(length(through.gain - Vec3{1, 1, 1}), 1e-9);
  EXPECT_LT(length(toVec(s.coloured[0].patch.mean) - Vec3{0.10, 0.15, 0.20}), 1e-9);
}

TEST(CarryThrough, AToneCurveStretchesSlopes) {
  ColourMap map = sameMap();
  map.curve.slope = 1.5;
  map.curve.pivot = 0.2;
  map.curve.low = 1e-4;
  Samples s = samples();
  carryThrough(map, true, rawFacts(), kGrey, s);
  EXPECT_NEAR(s.coloured[0].patch.trend[0], 0.0015, 2e-5);
  EXPECT_NEAR(s.coloured[0].patch.trend_sd[0], 0.00015, 2e-6);
}

}  // namespace
}  // namespace huewright
