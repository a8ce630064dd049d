#include "camera/grey_by_chart.hpp"

#include <cmath>
#include <gtest/gtest.h>

#include "colour/adapt.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

const ColourMap kPlainMap = [] {
  ColourMap map;
  map.matrix = kSrgbToXyzD50;
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) map.terms[r][c] = kSrgbToXyzD50(r, c);
  return map;
}();

struct ChartLight {
  Vec3 tint{1, 1, 1};       // on the device's channels
  double fall = 0;          // natural log of the brightness, per pixel along x
};

Patch patchOf(const Lab<D50>& lab, Point at, const ChartLight& light) {
  Patch p;
  const Vec3 rgb = std::exp(light.fall * at.x) * (Mat3::diagonal(light.tint) * (kXyzD50ToSrgb * toVec(toXyz(lab))));
  const Vec3 xyz = kSrgbToXyzD50 * rgb;
  p.mean = {xyz[0], xyz[1], xyz[2]};
  p.of_mean = 1e-10 * Mat3::identity();
  p.pixels = 2000;
  p.centre = at;
  p.trend = {light.fall, 0};
  p.trend_sd = {1e-6, 1e-6};
  return p;
}

/// Six greys in a row and six colours below them, from x = 500 on.
std::vector<ChartGrey> chartUnder(const ChartLight& light) {
  std::vector<ChartGrey> chart;
  const Lab<D50> bodies[] = {{96, 0, 1}, {81, -0.5, 0.3}, {66, 0, 0}, {51, 0, -0.5}, {36, 0, -0.5}, {21, 0, 0}, {50, 40, 20}, {60, -30, 20}, {40, 10, -40}, {70, 0, 50}, {45, 20, 20}, {55, -20, -20}};
  double x = 500;
  for (const Lab<D50>& lab : bodies) {
    const Patch patch = patchOf(lab, {x, lab.a * lab.a + lab.b * lab.b < 16 ? 100.0 : 200.0}, light);
    chart.push_back({fitPatch("p", patch, DeviceKind::LinearSrgb, lab), patch});
    x += 40;
  }
  return chart;
}

std::expected<GreyByChart, std::string> measuredGrey(const Lab<D50>& body, const ChartLight& light, std::vector<ChartGrey> chart, bool own = false) {
  const Patch grey = patchOf(body, {200, 100}, light);
  return greyByChart(grey, kXyzD50ToSrgb * toVec(grey.mean), kXyzD50ToSrgb, chart, kPlainMap, own);
}

const Lab<D50> kBody{49.6, 0.3, -1.2};

TEST(GreyByChart, WhatTheMapMissesTheChartsGreysTell) {
  const ChartLight light{{1.1, 1, 0.93}, 0};  // as if the map had been made in another light
  const auto r = measuredGrey(kBody, light, chartUnder(light));
  ASSERT_TRUE(r) << r.error();
  EXPECT_LT(length(toVec(r->lab) - toVec(kBody)), 0.05);
  EXPECT_NEAR(r->light, 0, 1e-9);
}

TEST(GreyByChart, ItsLightIsThatOfItsPlace) {
  for (const double fall : {-2e-4, 1e-4, 3e-4}) {
    const ChartLight light{{1, 1, 1}, fall};
    const auto r = measuredGrey(kBody, light, chartUnder(light));
    ASSERT_TRUE(r) << r.error();
    EXPECT_LT(length(toVec(r->lab) - toVec(kBody)), 0.1) << fall;
    EXPECT_NEAR(r->light, fall * (200 - 600), 0.002);
  }
}

TEST(GreyByChart, ADoubtfulGreyIsLessSure) {
  const auto plain = measuredGrey(kBody, {}, chartUnder({})), tinted = measuredGrey({49.6, 3, -6}, {}, chartUnder({})), own = measuredGrey(kBody, {}, chartUnder({}), true);
  ASSERT_TRUE(plain && tinted && own);
  EXPECT_GT(tinted->lab_sd[2], plain->lab_sd[2]);
  EXPECT_LT(own->lab_sd[0], plain->lab_sd[0]);
  auto rough = chartUnder({});
  for (std::size_t i = 0; i < 6; ++i) rough[i].fit.device = (i % 2 == 0 ? 1.03 : 0.97) * rough[i].fit.device;  // greys that do not go together
  const auto unsure = measuredGrey(kBody, {}, rough);
  ASSERT_TRUE(unsure);
  EXPECT_GT(unsure->lab_sd[0], 2 * plain->lab_sd[0]);
  auto unread = chartUnder({});
  for (ChartGrey& g : unread) g.patch.trend_sd = {};
  EXPECT_GT(measuredGrey(kBody, {}, unread)->light_sd, 5 * plain->light_sd);  // nobody knows how the light lies
}

TEST(GreyByChart, WithoutTheChartsGreysThereIsNothingToMeasureBy) {
  auto chart = chartUnder({});
  for (std::size_t i = 0; i < 4; ++i) chart[i].fit.spoilt = true;
  const auto r = measuredGrey(kBody, {}, chart);
  ASSERT_FALSE(r);
  EXPECT_NE(r.error().find("fewer than three"), std::string::npos);
  auto burnt = chartUnder({});
  for (std::size_t i = 0; i < 4; ++i) burnt[i].fit.clipped = 0.5;
  EXPECT_FALSE(measuredGrey(kBody, {}, burnt));
  auto alike = chartUnder({});
  alike[2].fit.device = alike[3].fit.device;
  EXPECT_FALSE(measuredGrey(kBody, {}, alike));
}

}  // namespace
}  // namespace huewright
