#include "camera/shade.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <random>

#include "camera/hand_grid.hpp"

namespace huewright {
namespace {

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
