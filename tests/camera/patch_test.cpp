#include "camera/patch.hpp"

#include <cmath>
#include <functional>
#include <gtest/gtest.h>
#include <random>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

const Vec3 kTeal = rgbToXyzD50(kSrgbPrimaries) * Vec3{0.04, 0.22, 0.24};

/// A picture made pixel by pixel from XYZ; clipping is set by the maker.
Raster make(int width, int height, const std::function<Vec3(int, int)>& xyz, const std::function<int(int, int)>& clip = {}) {
  Raster r;
  r.rect = {100, 50, width, height};
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      for (const double v : xyz(x, y)) r.xyz.push_back(static_cast<float>(v));
      r.clip.push_back(static_cast<std::uint8_t>(clip ? clip(x, y) : 0));
    }
  return r;
}

Quad whole(const Raster& r) { return toQuad(r.rect); }

struct Noise {
  std::mt19937_64 rng{11};
  std::normal_distribution<double> n;
  double operator()(double sd) { return sd * n(rng); }
};

double relative(const Patch& p, const Vec3& want) { return length(toVec(p.mean) - want) / length(want); }

TEST(Sample, FlatColour) {
  const Raster r = make(200, 150, [](int, int) { return kTeal; });
  const Patch p = sample(r, whole(r));
  EXPECT_LT(relative(p, kTeal), 1e-6);
  EXPECT_EQ(p.pixels, 200u * 150u);
  EXPECT_EQ(p.masked, 0);
  EXPECT_NEAR(p.centre.x, 200, 1e-9);
  EXPECT_NEAR(p.centre.y, 125, 1e-9);
  EXPECT_FALSE(p.over_edge);
}

TEST(Sample, OnlyPixelsInsideTheQuadCount) {
  // A diamond: teal inside, white outside.
  const Quad diamond{{{{200, 50}, {299, 125}, {200, 199}, {101, 125}}}};
  const Raster r = make(200, 150, [&](int x, int y) { return contains(diamond, {100.5 + x, 50.5 + y}) ? kTeal : kWhite<D50>; });
  const Patch p = sample(r, diamond);
  EXPECT_LT(relative(p, kTeal), 1e-6);
  EXPECT_NEAR(static_cast<double>(p.pixels), signedArea(diamond), 0.01 * signedArea(diamond));
}

TEST(Sample, TheCovarianceOfTheMeanIsTheScatterOfRepeats) {
  Noise noise;
  constexpr int kRepeats = 120;
  Mat3 stated{}, seen{};
  for (int i = 0; i < kRepeats; ++i) {
    const Raster r = make(160, 120, [&](int, int) {
      const double common = noise(0.03);
      return Vec3{kTeal[0] * (1 + common + noise(0.05)), kTeal[1] * (1 + common), kTeal[2] * (1 + common + noise(0.02))};
    });
    const Patch p = sample(r, whole(r));
    const Vec3 off = toVec(p.mean) - kTeal;
    seen = seen + (1.0 / kRepeats) * outer(off, off);
    stated = stated + (1.0 / kRepeats) * p.of_mean;
  }
  for (std::size_t k = 0; k < 3; ++k) EXPECT_NEAR(std::sqrt(stated(k, k) / seen(k, k)), 1.0, 0.25) << k;
}

// Neighbouring pixels are not independent: blotches of 16 pixels must not count as 256 independent looks.
TEST(Sample, CoarseTextureWidensTheMean) {
  Noise noise;
  double stated = 0, seen = 0;
  constexpr int kRepeats = 80;
  for (int i = 0; i < kRepeats; ++i) {
    std::vector<double> blotch(20 * 15);
    for (double& b : blotch) b = 1 + noise(0.04);
    const Raster r = make(320, 240, [&](int x, int y) { return blotch[static_cast<std::size_t>((y / 16) * 20 + x / 16)] * kTeal; });
    const Patch p = sample(r, whole(r));
    seen += std::pow(p.mean.Y - kTeal[1], 2) / kRepeats;
    stated += p.of_mean(1, 1) / kRepeats;
  }
  EXPECT_GT(std::sqrt(stated / seen), 0.7);
  EXPECT_LT(std::sqrt(stated / seen), 1.5);
}

Vec3 withGlare(const Vec3& body, double part) { return body + part * kWhite<D50>; }

TEST(Sample, GlareIsLeftOutUpToNearlyHalf) {
  Noise noise;
  struct Row {
    const char* what;
    double width;     // of the glare, share of the region's width
    double strength;  // of white
  };
  for (const Row& row : {Row{"small", 0.1, 0.5}, Row{"a third", 0.33, 0.5}, Row{"nearly half", 0.44, 0.4}, Row{"faint", 0.2, 0.03}}) {
    const Raster r = make(240, 200, [&](int x, int) {
      const double at = x / 240.0;
      const double soft = std::clamp((row.width - at) / 0.06, 0.0, 1.0);
      return withGlare((1 + noise(0.02)) * kTeal, row.strength * soft);
    });
    const Patch p = sample(r, whole(r));
    EXPECT_LT(relative(p, kTeal), 0.01) << row.what;
    EXPECT_NEAR(p.glare, row.width, 0.08) << row.what;
    EXPECT_LT(p.shadow, 0.03) << row.what;
  }
}

TEST(Sample, AShadowsPartIsLeftOut) {
  Noise noise;
  const Raster r = make(240, 200, [&](int x, int) { return (x < 60 ? 0.7 : 1.0) * (1 + noise(0.02)) * kTeal; });
  const Patch p = sample(r, whole(r));
  EXPECT_LT(relative(p, kTeal), 0.01);
  EXPECT_NEAR(p.shadow, 0.25, 0.06);
}

TEST(Sample, AShadowOnAColourOutsideSrgbIsNoGlare) {
  Noise noise;
  const Vec3 outside = toVec(toXyz(Lab<D50>{41, -28, -14}));
  ASSERT_LT(toLinearSrgb({outside[0], outside[1], outside[2]}).r, -0.005);
  const Raster r = make(240, 200, [&](int x, int) { return (x < 80 ? 0.5 : 1.0) * (1 + noise(0.02)) * outside; });
  const Patch p = sample(r, whole(r));
  EXPECT_LT(relative(p, outside), 0.01);
  EXPECT_NEAR(p.shadow, 0.33, 0.06);
  EXPECT_LT(p.glare, 0.02);
}

TEST(Sample, BurntOutGlareOverMoreThanHalfStillLeavesTheRest) {
  const Raster r = make(240, 200, [&](int x, int) { return x < 150 ? 0.9 * kWhite<D50> : kTeal; }, [](int x, int) { return x < 150 ? 7 : 0; });
  const Patch p = sample(r, whole(r));
  EXPECT_LT(relative(p, kTeal), 0.01);
  EXPECT_GT(p.glare, 0.6);
}

TEST(Sample, AnOverExposedPanelIsClippedNotGlare) {
  Noise noise;
  const Raster r = make(240, 200, [&](int, int) { return (1 + noise(0.02)) * kTeal; }, [&](int, int) { return noise(1) > 0 ? 4 : 0; });
  const Patch p = sample(r, whole(r));
  EXPECT_NEAR(p.clipped_top, 0.5, 0.05);
  EXPECT_LT(p.glare, 0.05);
}

TEST(Sample, ASmoothFallOffIsNeitherGlareNorTexture) {
  const Raster r = make(240, 200, [](int x, int) { return (1.1 - 0.2 * x / 239.0) * kTeal; });
  const Patch p = sample(r, whole(r));
  EXPECT_EQ(p.masked, 0);
  EXPECT_LT(relative(p, kTeal), 1e-3);
  EXPECT_LT(std::sqrt(p.of_mean(1, 1)) / p.mean.Y, 1e-3);
  EXPECT_NEAR(p.trend[0] * 240, -0.2, 0.005);
  EXPECT_NEAR(p.trend[1] * 200, 0.0, 0.005);
}

TEST(Sample, AnOutlineOverTheEdgeIsSeenAndLeftOut) {
  const Raster r = make(240, 200, [](int x, int) { return x < 30 ? 0.6 * kWhite<D50> : kTeal; });
  const Patch p = sample(r, whole(r));
  EXPECT_TRUE(p.over_edge);
  EXPECT_LT(relative(p, kTeal), 0.01);
}

TEST(Sample, SmallRegionsAndEmptyOnes) {
  const Raster r = make(9, 9, [](int, int) { return kTeal; });
  EXPECT_LT(relative(sample(r, whole(r)), kTeal), 1e-6);
  EXPECT_EQ(sample(r, toQuad({300, 300, 5, 5})).pixels, 0u);
}

}  // namespace
}  // namespace huewright
