#include "camera/unevenness.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <random>

namespace huewright {
namespace {

constexpr Lab<D50> kTealLab{45, -28, -10};

/// A panel of that size; lab gives the colour at (−1..1, −1..1); noise is relative and independent from pixel to pixel.
template <class F>
Raster panelOf(Size size, F lab, double noise, unsigned seed = 1) {
  std::mt19937 rng(seed);
  std::normal_distribution<double> n(0, noise);
  Raster r{{0, 0, size.width, size.height}, {}, {}};
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x) {
      const Vec3 xyz = toVec(toXyz(lab(2 * (x + 0.5) / size.width - 1, 2 * (y + 0.5) / size.height - 1)));
      for (const double v : xyz) r.xyz.push_back(static_cast<float>(v * (1 + n(rng))));
      r.clip.push_back(0);
    }
  return r;
}

Unevenness measuredUnevenness(const Raster& upright, double bow = 0.002) { return unevenness(upright, keptPixels(upright), bow); }

constexpr Size kUnevenSize{360, 270};

/// True within 40 pixels of the panel's edge: as wide on all sides, as a spray gun leaves it.
bool nearEdge(double x, double y) { return std::min((1 - std::abs(x)) * 180, (1 - std::abs(y)) * 135) < 40; }

TEST(Unevenness, AnEvenPanelIsEven) {
  int sure = 0;
  for (unsigned seed = 1; seed <= 10; ++seed) {
    const Unevenness u = measuredUnevenness(panelOf(kUnevenSize, [](double, double) { return kTealLab; }, 0.05, seed));
    ASSERT_TRUE(u.mottle_known && u.edge_known);
    EXPECT_LT(u.mottle, 0.15) << seed;  // without taking the noise off it would be 0.35
    EXPECT_LT(u.edge_de00, 0.25) << seed;
    EXPECT_LT(u.slope, 0.3) << seed;
    sure += u.mottle + 1.96 * u.mottle_sd < 0.35;
  }
  EXPECT_GE(sure, 9);
}

TEST(Unevenness, MottleIsItsRootMeanSquare) {
  // Blotches in lightness, five waves across: L* by A sin sin has the root mean square A/2; near L* = 45, kL SL is 1.06.
  for (const double amplitude : {1.0, 2.0, 4.0}) {
    const auto blotched = [&](double x, double y) {
      return Lab<D50>{kTealLab.L + amplitude * std::sin(15.7 * x) * std::sin(12.1 * y), kTealLab.a, kTealLab.b};
    };
    const Unevenness u = measuredUnevenness(panelOf(kUnevenSize, blotched, 0.05));
    const double truth = amplitude / 2 / (1 + 0.015 * 25 / std::sqrt(20 + 25.0));
    EXPECT_NEAR(u.mottle, truth, 0.12 * truth + 0.03) << amplitude;  // blocks blur the waves by a few per cent
    EXPECT_GT(u.mottle_sd, 0);
    EXPECT_LT(u.mottle_sd, 0.3 * truth);
  }
}

TEST(Unevenness, NoiseAloneIsNoMottleHoweverStrong) {
  const Unevenness u = measuredUnevenness(panelOf(kUnevenSize, [](double, double) { return kTealLab; }, 0.25));
  EXPECT_LT(u.mottle - 1.96 * u.mottle_sd, 0.3);
  EXPECT_LT(u.mottle, 0.6);  // 1.7 as the blocks scatter
}

TEST(Unevenness, DeeperEdgesAreSeenWithTheirDirection) {
  const auto rimmed = [](double x, double y) {
    return nearEdge(x, y) ? Lab<D50>{kTealLab.L - 1.5, kTealLab.a, kTealLab.b - 2} : kTealLab;
  };
  const Unevenness u = measuredUnevenness(panelOf(kUnevenSize, rimmed, 0.03));
  ASSERT_TRUE(u.edge_known);
  EXPECT_NEAR(u.edge_minus_centre.dL, -1.5, 0.1);
  EXPECT_NEAR(u.edge_minus_centre.da, 0, 0.25);
  EXPECT_NEAR(u.edge_minus_centre.db, -2, 0.25);
  EXPECT_NEAR(u.edge_de00, deltaE2000({43.5, -28, -12}, kTealLab), 0.1);
  EXPECT_GT(u.edge_sd, 0.005);
  EXPECT_LT(u.edge_sd, 0.2);
  EXPECT_LT(u.mottle, 0.25);  // the rim is no mottle
}

TEST(Unevenness, AnEdgeOfThreeUnitsIsNotMaskedAway) {
  const auto rimmed = [](double x, double y) {
    return Lab<D50>{kTealLab.L - (nearEdge(x, y) ? 3 : 0), kTealLab.a, kTealLab.b};
  };
  EXPECT_NEAR(measuredUnevenness(panelOf(kUnevenSize, rimmed, 0.01)).edge_minus_centre.dL, -3, 0.15);
}

TEST(Unevenness, ASlopeIsASlopeAndNeitherMottleNorEdge) {
  const Unevenness u = measuredUnevenness(panelOf(kUnevenSize, [](double x, double) { return Lab<D50>{kTealLab.L + 1.5 * x, kTealLab.a, kTealLab.b}; }, 0.03));
  EXPECT_NEAR(u.slope, 3 / 1.05, 0.15);
  EXPECT_LT(u.slope_sd, 0.2);
  EXPECT_LT(u.mottle, 0.15);
  EXPECT_LT(u.edge_de00, 0.15);
}

TEST(Unevenness, WhatTheLightMayBowIsInTheEdgesDeviation) {
  const Raster even = panelOf(kUnevenSize, [](double, double) { return kTealLab; }, 0.01);
  const auto at = [&](double bow) { return unevenness(even, keptPixels(even), bow); };
  // One per cent of light at L* = 45: about 0.2 in L*.
  EXPECT_GT(at(0.02).edge_sd, 1.8 * at(0.01).edge_sd);
  EXPECT_LT(at(0.001).edge_sd, 0.06);
}

TEST(Unevenness, GlareIsLeftOut) {
  const auto shiny = [](double x, double y) {
    const double near = std::hypot(x - 0.75, y - 0.7);
    return Lab<D50>{kTealLab.L + (near < 0.22 ? 25 : 0), kTealLab.a, kTealLab.b};
  };
  const Unevenness u = measuredUnevenness(panelOf(kUnevenSize, shiny, 0.03));
  EXPECT_LT(u.mottle, 0.2);
  EXPECT_LT(u.edge_de00, 0.25);
  EXPECT_LT(u.blocks, 24U * 18U - 5U);
}

TEST(Unevenness, ClippedPixelsAreLeftOut) {
  Raster panel = panelOf(kUnevenSize, [](double, double) { return kTealLab; }, 0.02);
  for (int y = 60; y < 120; ++y)
    for (int x = 90; x < 150; ++x) {
      const auto i = static_cast<std::size_t>(y * kUnevenSize.width + x);
      panel.clip[i] = 0x04;
      for (std::size_t k = 0; k < 3; ++k) panel.xyz[3 * i + k] *= 1.12f;
    }
  const std::vector<Kept> kept(panel.clip.size(), Kept::Yes);
  EXPECT_LT(unevenness(panel, kept).mottle, 0.15);
  panel.clip.assign(panel.clip.size(), 0);
  EXPECT_GT(unevenness(panel, kept).mottle, 0.3);
}

TEST(Unevenness, TooLittleIsSaid) {
  const auto flat = [](double, double) { return kTealLab; };
  EXPECT_FALSE(measuredUnevenness(panelOf({30, 20}, flat, 0.01)).mottle_known);
  const Raster panel = panelOf(kUnevenSize, flat, 0.01);
  std::vector<Kept> kept(panel.clip.size(), Kept::Shadow);
  EXPECT_EQ(unevenness(panel, kept).blocks, 0U);
  EXPECT_FALSE(unevenness(panel, kept).edge_known);
  for (int y = 0; y < kUnevenSize.height; ++y)  // only the middle shows
    for (int x = 0; x < kUnevenSize.width; ++x)
      if (std::abs(2 * x - kUnevenSize.width) < kUnevenSize.width / 2 && std::abs(2 * y - kUnevenSize.height) < kUnevenSize.height / 2)
        kept[static_cast<std::size_t>(y * kUnevenSize.width + x)] = Kept::Yes;
  EXPECT_TRUE(unevenness(panel, kept).mottle_known);
  EXPECT_FALSE(unevenness(panel, kept).edge_known);
}

TEST(Unevenness, FromThePhotoTheLightIsTakenOffFirst) {
  Raster photo = panelOf({500, 400}, [](double, double) { return kTealLab; }, 0.02);
  const auto light = [](Point p) { return 1 + 0.15 * std::pow((p.x - 250) / 250, 2) + 0.1 * (p.y - 200) / 200; };
  for (int y = 0; y < 400; ++y)
    for (int x = 0; x < 500; ++x)
      for (std::size_t k = 0; k < 3; ++k) photo.xyz[3 * static_cast<std::size_t>(y * 500 + x) + k] *= static_cast<float>(light({x + 0.5, y + 0.5}));
  const Quad quad{{{{60, 40}, {450, 60}, {430, 370}, {40, 350}}}};
  const Unevenness left = unevenness(photo, quad, [](Point) { return Mat3::identity(); }, 0.002);
  const Unevenness taken = unevenness(photo, quad, [&](Point p) { return 1 / light(p) * Mat3::identity(); }, 0.002);
  EXPECT_GT(left.slope, 1);
  EXPECT_GT(left.edge_de00, 0.6);
  EXPECT_LT(taken.slope, 0.2);
  EXPECT_LT(taken.edge_de00, 0.2);
}

TEST(Unevenness, SixtyPixelsStillTell) {
  const Unevenness u = measuredUnevenness(panelOf({60, 44}, [](double x, double y) {
                                  return Lab<D50>{kTealLab.L + 3 * std::sin(9 * x) * std::sin(7 * y), kTealLab.a, kTealLab.b};
                                }, 0.02));
  ASSERT_TRUE(u.mottle_known);
  EXPECT_NEAR(u.mottle, 1.5 / 1.05, 0.35);
}

}  // namespace
}  // namespace huewright
