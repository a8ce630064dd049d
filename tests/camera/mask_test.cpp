#include "camera/mask.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <random>

namespace huewright {
namespace {

/// A grid of one-pixel blocks, 48 × 36, from luminance.
template <class F>
Grid gridOf(F luminance) {
  Grid g{48, 36, 1, {}, {}};
  for (int y = 0; y < 36; ++y)
    for (int x = 0; x < 48; ++x) {
      const double v = luminance(x, y);
      g.full.push_back(g.blocks.size());
      g.blocks.push_back({x + 0.5, y + 0.5, v * Vec3{0.96, 1, 0.82}, 1, 0, 0});
    }
  return g;
}

std::size_t count(const std::vector<Kept>& kept, Kept kind) { return static_cast<std::size_t>(std::ranges::count(kept, kind)); }

TEST(Mask, PureTextureKeepsNearlyEverything) {
  std::mt19937_64 rng(9);
  std::normal_distribution<double> n;
  const auto kept = mask(gridOf([&](int, int) { return 0.3 * (1 + 0.05 * n(rng)); }));
  EXPECT_GT(count(kept, Kept::Yes), kept.size() * 97 / 100);
}

TEST(Mask, ASpotOfGlareAndItsSoftRimAreTaken) {
  const auto kept = mask(gridOf([](int x, int y) {
    const double r = std::hypot(x - 20.0, y - 18.0);
    return 0.3 + 0.3 * std::clamp((9 - r) / 4, 0.0, 1.0);
  }));
  EXPECT_EQ(kept[18 * 48 + 20], Kept::Glare);
  EXPECT_EQ(kept[18 * 48 + 28], Kept::Glare);  // the rim, a twelfth of the core
  EXPECT_EQ(kept[18 * 48 + 36], Kept::Yes);
  EXPECT_EQ(count(kept, Kept::Shadow), 0u);
}

TEST(Mask, AShadowIsAShadow) {
  const auto kept = mask(gridOf([](int x, int) { return x < 10 ? 0.2 : 0.3; }));
  EXPECT_EQ(kept[5], Kept::Shadow);
  EXPECT_EQ(kept[30], Kept::Yes);
}

TEST(Mask, ASlopeIsKept) {
  const auto kept = mask(gridOf([](int x, int) { return 0.3 * (1 + 0.004 * x); }));
  EXPECT_EQ(count(kept, Kept::Yes), kept.size());
}

TEST(Shade, AStepIsFoundWithItsShare) {
  for (const int at : {5, 12, 24, 36, 42}) {
    const Grid g = gridOf([&](int x, int) { return x < at ? 0.2 : 0.3; });
    const Shade shade = findShade(g);
    EXPECT_NEAR(shade.step, std::log(1.5), 0.01) << at;
    EXPECT_NEAR(shade.share, at / 48.0, 0.03) << at;
    EXPECT_FALSE(shade.coloured) << at;
    const auto kept = maskLit(g, shade);
    EXPECT_EQ(kept[18 * 48 + 2], Kept::Shadow) << at;
    EXPECT_EQ(kept[18 * 48 + 46], Kept::Yes) << at;
    EXPECT_EQ(count(kept, Kept::Glare), 0u) << at;
  }
}

TEST(Shade, SlopesParabolasSpotsAndTextureAreNone) {
  std::mt19937_64 rng(5);
  std::normal_distribution<double> n;
  EXPECT_EQ(findShade(gridOf([](int x, int) { return 0.3 * (1 + 0.008 * x); })).step, 0);
  EXPECT_EQ(findShade(gridOf([](int x, int y) { return 0.3 * (1 - 0.0004 * (x - 10) * (x - 10) - 0.0003 * (y - 20) * (y - 20)); })).step, 0);
  EXPECT_EQ(findShade(gridOf([](int x, int y) { return 0.3 + 0.3 * std::exp(-std::hypot(x - 3.0, y - 12.0) / 8); })).step, 0);
  EXPECT_EQ(findShade(gridOf([&](int, int) { return 0.3 * (1 + 0.1 * n(rng)); })).step, 0);
  EXPECT_EQ(findShade(gridOf([](int x, int) { return 0.3 + 0.06 * std::clamp((x - 14) / 20.0, 0.0, 1.0); })).step, 0);  // a soft one
}

TEST(Shade, ABurntOutRegionGivesNone) {
  for (const double share : {0.6, 1.0}) {
    Grid g = gridOf([](int, int) { return 1.0; });
    for (std::size_t i = 0; i < g.blocks.size(); ++i)
      if (static_cast<double>(i) < share * static_cast<double>(g.blocks.size())) g.blocks[i].top = g.blocks[i].count;
    EXPECT_EQ(findShade(g).step, 0) << share;
  }
}

TEST(Shade, FewBlocksGiveNone) {
  Grid g{4, 4, 1, {}, {}};
  for (int i = 0; i < 16; ++i) {
    g.full.push_back(g.blocks.size());
    g.blocks.push_back({i % 4 + 0.5, i / 4 + 0.5, (i % 4 < 2 ? 0.2 : 0.4) * Vec3{0.96, 1, 0.82}, 1, 0, 0});
  }
  EXPECT_EQ(findShade(g).step, 0);
}

}  // namespace
}  // namespace huewright
