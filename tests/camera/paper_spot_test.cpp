#include "camera/paper_spot.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

#include "camera/chance.hpp"
#include "colour/adapt.hpp"

namespace huewright {
namespace {

/// A raster of paper, with noise.
Raster paper(int side, double noise, Chance& chance) {
  Raster raster{{100, 200, side, side}, std::vector<float>(std::size_t{3} * side * side), std::vector<std::uint8_t>(std::size_t(side) * side)};
  for (std::size_t i = 0; i < raster.xyz.size(); i += 3) {
    const double by = 1 + noise * chance.normal();
    raster.xyz[i] = static_cast<float>(0.6 * by);
    raster.xyz[i + 1] = static_cast<float>(0.62 * by);
    raster.xyz[i + 2] = static_cast<float>(0.5 * by);
  }
  return raster;
}

const Vec3 kSharpPaper = kBradford * Vec3{0.6, 0.62, 0.5};

TEST(PaperSpotReader, MeanCentroidAndScatterOfItsMean) {
  Chance chance(10);
  const Quad quad = toQuad({104, 206, 24, 24});
  double squares = 0, stated = 0;
  constexpr int kTrials = 200;
  for (int i = 0; i < kTrials; ++i) {
    const auto spot = paperSpot(paper(40, 0.05, chance), quad);
    ASSERT_TRUE(spot);
    EXPECT_DOUBLE_EQ(spot->at.x, 116);
    EXPECT_DOUBLE_EQ(spot->at.y, 218);
    const double error = spot->sharp[1] / kSharpPaper[1] - 1;
    squares += error * error / kTrials;
    stated += spot->scatter * spot->scatter / kTrials;
  }
  EXPECT_NEAR(std::sqrt(stated / squares), 1, 0.15);
}

TEST(PaperSpotReader, ASpeckAndALineDoNoHarm) {
  Chance chance(11);
  Raster raster = paper(40, 0.01, chance);
  for (int y = 0; y < 40; ++y)  // a pencil line
    for (std::size_t c = 0; c < 3; ++c) raster.xyz[3 * (static_cast<std::size_t>(y) * 40 + 12) + c] *= 0.4F;
  for (int y = 20; y < 26; ++y)  // a speck
    for (int x = 20; x < 26; ++x)
      for (std::size_t c = 0; c < 3; ++c) raster.xyz[3 * (static_cast<std::size_t>(y) * 40 + static_cast<std::size_t>(x)) + c] *= 0.1F;
  const auto spot = paperSpot(raster, toQuad({104, 206, 30, 30}));
  ASSERT_TRUE(spot);
  for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(spot->sharp[c] / kSharpPaper[c], 1, 0.01);
}

TEST(PaperSpotReader, WhatCannotBeUsedIsNothing) {
  Chance chance(12);
  Raster raster = paper(40, 0.01, chance);
  EXPECT_TRUE(paperSpot(raster, toQuad({104, 206, 3, 3})));
  EXPECT_FALSE(paperSpot(raster, toQuad({104, 206, 4, 2})));    // eight pixels
  EXPECT_FALSE(paperSpot(raster, toQuad({300, 206, 20, 20})));  // elsewhere
  const Quad quad = toQuad({104, 206, 20, 20});
  for (int burnt = 0; burnt < 60; ++burnt)  // 15 % of the pixels, though no channel in over a tenth
    raster.clip[static_cast<std::size_t>(6 + burnt / 20) * 40 + 4 + static_cast<std::size_t>(burnt % 20)] = burnt % 2 == 0 ? 0x01 : 0x02;
  EXPECT_TRUE(paperSpot(raster, quad));
  for (std::size_t i = 0; i < raster.clip.size(); i += 9) raster.clip[i] |= 0x04;
  EXPECT_FALSE(paperSpot(raster, quad));
  Raster black = paper(40, 0.01, chance);
  for (float& value : black.xyz) value *= 0.001F;
  EXPECT_FALSE(paperSpot(black, quad));
}

}  // namespace
}  // namespace huewright
