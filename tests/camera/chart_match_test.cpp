#include "camera/chart_match.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <gtest/gtest.h>
#include <random>

#include "colour/rgb.hpp"
#include "support/calib.hpp"
#include "support/chart_picture.hpp"

namespace huewright {
namespace {

using fixtures::publishedChart;

/// The chart's colours as a grid shows them that lies in it in some arrangement.
std::vector<GridColour> grid(ChartArrangement arrangement = {}) {
  const auto light = fixtures::chartLight(publishedChart());
  std::vector<GridColour> out(24);
  for (std::size_t i = 0; i < 24; ++i) out[gridIndex(i, 6, 4, arrangement)].light = light[i];
  return out;
}

/// Another camera: channels mixed, other gains, a curve, a slope of the light.
std::vector<GridColour> developed(std::vector<GridColour> colours) {
  const Mat3 mix{{{{0.8, 0.25, -0.05}, {0.1, 0.8, 0.1}, {0.02, 0.2, 0.7}}}};
  for (std::size_t i = 0; i < 24; ++i) {
    const double x = static_cast<double>(i % 6) / 5 - 0.5, y = static_cast<double>(i / 6) / 3 - 0.5;
    Vec3 v = (0.4 * std::exp(0.25 * x - 0.1 * y)) * (mix * colours[i].light);
    for (std::size_t c = 0; c < 3; ++c) v[c] = std::pow(std::max(0.0, v[c]), 1.25) * (c == 0 ? 2.1 : c == 2 ? 0.6 : 1);
    colours[i].light = v;
  }
  return colours;
}

TEST(MatchChart, EveryArrangementIsKnownThroughAnotherCamera) {
  for (const bool turned : {false, true})
    for (const bool mirrored : {false, true}) {
      const ChartArrangement arrangement{turned, mirrored};
      const ChartMatch plain = matchChart(grid(arrangement), publishedChart());
      EXPECT_EQ(plain.arrangement, arrangement);
      EXPECT_EQ(plain.agreeing, 24U);
      EXPECT_LT(plain.error, 0.5);  // cyan is outside sRGB
      const ChartMatch other = matchChart(developed(grid(arrangement)), publishedChart());
      EXPECT_EQ(other.arrangement, arrangement);
      EXPECT_EQ(other.agreeing, 24U);
      EXPECT_LT(other.error, 4);
    }
}

TEST(MatchChart, TheExposureDoesNotMatter) {
  auto colours = developed(grid());
  const double before = matchChart(colours, publishedChart()).error;
  for (GridColour& c : colours) c.light = 1e-3 * c.light;
  EXPECT_NEAR(matchChart(colours, publishedChart()).error, before, 1e-3);
}

TEST(MatchChart, AThirdMayShowAnything) {
  std::mt19937_64 random(4);
  const auto uniform = [&] { return std::uniform_real_distribution<double>(0.02, 0.9)(random); };
  for (int round = 0; round < 20; ++round) {
    auto colours = developed(grid());
    std::vector<std::size_t> order(24);
    for (std::size_t i = 0; i < 24; ++i) order[i] = i;
    std::shuffle(order.begin(), order.end(), random);
    for (std::size_t i = 0; i < 7; ++i) colours[order[i]].light = {uniform(), uniform(), uniform()};
    const ChartMatch match = matchChart(colours, publishedChart());
    EXPECT_EQ(match.arrangement, ChartArrangement{}) << round;
    EXPECT_GE(match.agreeing, 16U) << round;
    for (std::size_t i = 7; i < 24; ++i) EXPECT_LT(match.off[order[i]], 18) << round << ' ' << publishedChart().patches[order[i]].name;
  }
}

TEST(MatchChart, OtherOrdersAndColoursDoNotAgree) {
  std::mt19937_64 random(5);
  for (int round = 0; round < 60; ++round) {
    auto colours = grid();
    if (round % 2 == 0) std::shuffle(colours.begin(), colours.end(), random);
    else
      for (GridColour& c : colours)
        for (double& v : c.light) v = std::uniform_real_distribution<double>(0.02, 0.9)(random);
    const ChartMatch match = matchChart(colours, publishedChart());
    EXPECT_LE(match.agreeing, 11U) << round;
    EXPECT_GT(match.error, 15) << round;
  }
  // One colour all over, and nothing at all.
  std::vector<GridColour> grey(24, GridColour{{0.3, 0.3, 0.3}});
  EXPECT_GT(matchChart(grey, publishedChart()).error, 15);
  for (GridColour& c : grey) c.weight = 0;
  EXPECT_TRUE(std::isinf(matchChart(grey, publishedChart()).error));
  EXPECT_FALSE(matchChart(std::vector<GridColour>(24), publishedChart()).error < 15);
}

TEST(MatchChart, WhatHasNoWeightIsNotHeldAgainstIt) {
  auto colours = grid();
  for (const std::size_t i : {0U, 6U, 12U, 18U}) colours[i] = {{9, 9, 9}, 0};
  const ChartMatch match = matchChart(colours, publishedChart());
  EXPECT_EQ(match.agreeing, 20U);
  EXPECT_TRUE(std::isinf(match.off[6]));
  EXPECT_LT(match.error, 0.5);
}

TEST(GridIndex, TurnsAndMirrors) {
  EXPECT_EQ(gridIndex(0, 6, 4, {}), 0U);
  EXPECT_EQ(gridIndex(0, 6, 4, {true, false}), 23U);
  EXPECT_EQ(gridIndex(1, 6, 4, {false, true}), 4U);
  EXPECT_EQ(gridIndex(1, 6, 4, {true, true}), 19U);
}

}  // namespace
}  // namespace huewright
