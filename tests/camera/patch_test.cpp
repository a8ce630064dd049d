#include "camera/patch.hpp"

#include <cmath>
#include <cstdlib>
#include <functional>
#include <gtest/gtest.h>
#include <iostream>
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

TEST(SampleBlocks, TellWhatWasLeftOutOfTheSameReading) {
  const Raster r = make(240, 180, [](int x, int y) { return x > 60 && x < 130 && y > 40 && y < 100 ? 1.6 * kTeal + 0.05 * kWhite<D50> : kTeal; });
  const SampledBlocks sampled = sampleBlocks(r, whole(r));
  const Patch p = sample(r, whole(r));
  EXPECT_EQ(sampled.patch.glare, p.glare);
  EXPECT_EQ(toVec(sampled.patch.mean), toVec(p.mean));
  ASSERT_EQ(sampled.kept.size(), sampled.grid.blocks.size());
  double glare = 0, all = 0;
  for (const std::size_t i : sampled.grid.full) {
    all += sampled.grid.blocks[i].count;
    if (sampled.kept[i] == Kept::Glare) glare += sampled.grid.blocks[i].count;
  }
  EXPECT_GT(p.glare, 0.08);
  EXPECT_DOUBLE_EQ(glare / all, p.glare);
  EXPECT_TRUE(sampleBlocks(r, toQuad({5000, 5000, 10, 10})).kept.empty());
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

/// A region with all that is no shadow, for looking at many of them.
struct PaintedPatch {
  int width = 240, height = 180;
  Vec3 colour = kTeal;  // XYZ
  double fall = 0, turn = 0, bow = 0, noise = 0.01, flake = 0, mottle = 0, spot = 0, spot_x = 0.5, spot_y = 0.5, spot_r = 0.1, dust = 0;
  double shade = 1, shade_turn = 0, shade_at = 0, shade_soft = 0.004, shade_bend = 0;  // what is behind the line keeps this share of its light
  std::uint64_t seed = 1;

  /// Share of the light at a place; the shadow's edge is a line, a little bent.
  double lit(double u, double v) const {
    const double along = (v - 0.5) * std::cos(shade_turn) - (u - 0.5) * std::sin(shade_turn);
    const double t = (u - 0.5) * std::cos(shade_turn) + (v - 0.5) * std::sin(shade_turn) - shade_at + shade_bend * along * along;
    return shade + (1 - shade) * std::clamp(0.5 + t / shade_soft, 0.0, 1.0);
  }
  Raster photo() const {
    std::mt19937_64 rng(seed);
    std::normal_distribution<double> n;
    std::uniform_real_distribution<double> any(-1, 1);
    std::vector<std::array<double, 4>> waves;
    for (int i = 0; i < 8; ++i) waves.push_back({40 * any(rng), 40 * any(rng), 3 * any(rng), mottle / 2});
    return make(width, height, [&](int x, int y) {
      const double u = (x + 0.5) / width, v = (y + 0.5) / height, across = (u - 0.5) * std::cos(turn) + (v - 0.5) * std::sin(turn);
      double factor = (1 + fall * across - bow * across * across) * (1 + flake * n(rng)) * lit(u, v);
      if (mottle > 0)
        for (const auto& w : waves) factor *= 1 + w[3] * std::sin(w[0] * u + w[1] * v + w[2]);
      if (dust > 0 && std::fmod(std::abs(std::sin(x / 9 * 12.9898 + y / 9 * 78.233) * 43758.5453), 1.0) < dust) factor *= 0.5;
      Vec3 xyz = factor * colour;
      for (double& c : xyz) c *= 1 + noise * n(rng);
      const double r = std::hypot(u - spot_x, (v - spot_y) * height / width) / spot_r;
      return xyz + (spot * std::exp(-r * r)) * kWhite<D50>;
    });
  }
};

TEST(Sample, AShadowsEdgeIsFoundAndTheLitPartRead) {
  const Vec3 grey = 0.3 * kWhite<D50>, red = kSrgbToXyzD50 * Vec3{0.4, 0.03, 0.02};
  for (const Vec3& colour : {kTeal, grey, red})
    for (const double shade : {0.3, 0.7, 0.9})
      for (const double at : {-0.3, 0.0, 0.25, 0.36})
        for (const double turn : {0.0, 0.6, 2.5}) {
          PaintedPatch s;
          s.colour = colour;
          s.shade = shade;
          s.shade_at = at;
          s.shade_turn = turn;
          s.noise = 0.02;
          s.flake = 0.05;
          s.fall = 0.1;
          s.turn = 1;
          const Raster r = s.photo();
          const Patch p = sample(r, whole(r));
          if (length(colour - grey) < 1e-9 && at > 0.3) continue;  // a neutral strip or corner may be anything: see below
          const auto name = testing::Message() << length(colour) << " " << shade << " " << at << " " << turn;
          EXPECT_NEAR(p.shade_step, -std::log(shade), 0.015) << name;
          // What the light's fall-off does at the lit part's middle belongs to it.
          const double u = (p.centre.x - 100) / 240 - 0.5, v = (p.centre.y - 50) / 180 - 0.5;
          EXPECT_LT(relative(p, (1 + 0.1 * (u * std::cos(1.0) + v * std::sin(1.0))) * colour), 0.006) << name;
          EXPECT_LT(p.glare, 0.03) << name;
          EXPECT_FALSE(p.over_edge) << name;
        }
}

TEST(Sample, AShadowsShareIsStated) {
  PaintedPatch s;
  s.shade = 0.6;
  s.shade_at = 0.2;
  const Raster r = s.photo();
  const Patch p = sample(r, whole(r));
  EXPECT_NEAR(p.shade_share, 0.7, 0.02);
  EXPECT_NEAR(p.shadow, 0.75, 0.06);
}

TEST(Sample, AGreyStripAlongOneSideIsAnEdgeNotTheLight) {
  const Raster r = make(240, 200, [](int x, int) { return (x < 30 ? 0.8 : 0.2) * kWhite<D50>; });
  const Patch p = sample(r, whole(r));
  EXPECT_TRUE(p.over_edge);
  EXPECT_EQ(p.shade_step, 0);
  EXPECT_LT(relative(p, 0.2 * kWhite<D50>), 0.01);
}

TEST(Sample, AddedLightIsNoShade) {
  for (const Vec3& colour : {kTeal, kSrgbToXyzD50 * Vec3{0.6, 0.5, 0.05}, kSrgbToXyzD50 * Vec3{0.3, 0.2, 0.2}})
    for (const double part : {0.2, 0.4}) {
      const Raster r = make(240, 200, [&](int x, int) { return withGlare(colour, x < part * 240 ? 0.08 : 0.0); });
      const Patch p = sample(r, whole(r));
      EXPECT_EQ(p.shade_step, 0) << part;
      EXPECT_LT(relative(p, colour), 0.01) << part;
    }
}

PaintedPatch anySurface(std::uint64_t seed) {
  std::mt19937_64 rng(seed);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(rng); };
  PaintedPatch s;
  s.seed = seed;
  s.width = static_cast<int>(between(60, 260));
  s.height = static_cast<int>(s.width * between(0.4, 1.0));
  Vec3 rgb;
  const double level = between(0.03, 0.6);
  for (double& c : rgb) c = level * (rng() % 3 == 0 ? 1.0 : between(0.05, 1));
  s.colour = kSrgbToXyzD50 * rgb;
  s.fall = between(-0.2, 0.2);
  s.bow = between(0, 0.2);
  s.turn = between(0, 3.14);
  s.noise = between(0.002, 0.03);
  s.flake = between(0, 0.12);
  s.mottle = between(0, 0.025);
  if (rng() % 2 == 0) {
    s.spot = between(0.02, 0.6);
    s.spot_x = between(0, 1);
    s.spot_y = between(0, 1);
    s.spot_r = between(0.03, 0.25);
  }
  if (rng() % 3 == 0) s.dust = 0.02;
  return s;
}

/// HUEWRIGHT_SWEEP sets how many are looked at, for a longer look.
std::uint64_t lookedAt(std::uint64_t usual) {
  const char* told = std::getenv("HUEWRIGHT_SWEEP");
  return told == nullptr ? usual : std::strtoull(told, nullptr, 10);
}

TEST(Sample, NoFalseAlarmOfAShadow) {
  int alarms = 0;
  for (std::uint64_t seed = 1; seed <= lookedAt(400); ++seed) {
    const PaintedPatch seen = anySurface(seed);
    const Raster r = seen.photo();
    const Patch p = sample(r, whole(r));
    alarms += p.shade_step > 0;
    if (p.shade_step > 0)
      std::cout << "surface " << seed << ": " << p.shade_step << " share " << p.shade_share << " spot " << seen.spot << " " << seen.spot_r << "\n";
  }
  std::cout << alarms << " false alarms\n";
  EXPECT_LE(200 * alarms, static_cast<int>(lookedAt(400)));
}

TEST(Sample, NearlyEveryShadowIsFound) {
  int missed = 0, wrong = 0;
  for (std::uint64_t seed = 1001; seed <= 1000 + lookedAt(200); ++seed) {
    PaintedPatch s = anySurface(seed);
    std::mt19937_64 rng(seed);
    const auto between = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(rng); };
    s.spot = 0;
    s.shade = std::exp(-between(0.1, 1.2));
    s.shade_turn = between(0, 6.28);
    s.shade_at = between(-0.3, 0.3);
    s.shade_soft = between(0.002, 0.03);
    s.shade_bend = between(-0.1, 0.1);
    const Raster r = s.photo();
    const Patch p = sample(r, whole(r));
    missed += p.shade_step == 0;
    const double want = -std::log(s.shade), off = std::abs(p.shade_step - want);
    wrong += p.shade_step > 0 && off > std::max(0.04, 0.15 * want);
    if (p.shade_step == 0 || off > std::max(0.04, 0.15 * want))
      std::cout << "shadow " << seed << ": " << p.shade_step << " for " << -std::log(s.shade) << " at " << s.shade_at
                << " bend " << s.shade_bend << " " << s.width << "x" << s.height << "\n";
  }
  std::cout << missed << " missed, " << wrong << " off by more than a sixth\n";
  const int number = static_cast<int>(lookedAt(200));
  EXPECT_LE(20 * missed, number);  // bent, weak, or under dust that is large beside the region
  EXPECT_LE(50 * wrong, number);
}

}  // namespace
}  // namespace huewright
