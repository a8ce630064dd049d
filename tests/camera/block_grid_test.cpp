#include "camera/block_grid.hpp"

#include <gtest/gtest.h>
#include <random>

namespace huewright {
namespace {

// The fast row-by-row walk against the plain way: ask every pixel centre whether it lies inside.
TEST(Grid, AgreesWithAskingEveryPixel) {
  std::mt19937_64 rng(1);
  std::uniform_real_distribution<double> at(0, 60), value(0, 1);
  int tried = 0;
  while (tried < 60) {
    Quad quad{{{{at(rng), at(rng)}, {60 + at(rng), at(rng)}, {60 + at(rng), 60 + at(rng)}, {at(rng), 60 + at(rng)}}}};
    if (!isConvex(quad)) continue;
    ++tried;
    quad = clockwise(quad);
    Raster r{{0, 0, 121, 121}, {}, {}};
    for (int i = 0; i < 121 * 121; ++i) {
      for (int k = 0; k < 3; ++k) r.xyz.push_back(static_cast<float>(value(rng)));
      r.clip.push_back(static_cast<std::uint8_t>(i % 7 == 0 ? 1 : i % 11 == 0 ? 8 : 0));
    }
    Vec3 sum{};
    int count = 0, top = 0, bottom = 0;
    for (int y = 0; y < 121; ++y)
      for (int x = 0; x < 121; ++x)
        if (contains(quad, {x + 0.5, y + 0.5})) {
          const auto i = static_cast<std::size_t>(y * 121 + x);
          sum = sum + Vec3{r.xyz[3 * i], r.xyz[3 * i + 1], r.xyz[3 * i + 2]};
          ++count;
          top += (r.clip[i] & 7) != 0;
          bottom += (r.clip[i] & 56) != 0;
        }
    const Grid g = makeGrid(r, quad);
    Block all;
    for (const Block& b : g.blocks) {
      all.xyz = all.xyz + b.xyz;
      all.count += b.count;
      all.top += b.top;
      all.bottom += b.bottom;
    }
    EXPECT_EQ(all.count, count);
    EXPECT_EQ(all.top, top);
    EXPECT_EQ(all.bottom, bottom);
    EXPECT_LT(length(all.xyz - sum), 1e-9 * (1 + length(sum)));
  }
}

TEST(Grid, FullBlocksLieAtLeastHalfInside) {
  const Raster r{{0, 0, 100, 100}, std::vector<float>(30000, 0.5F), std::vector<std::uint8_t>(10000, 0)};
  const Grid g = makeGrid(r, toQuad({10, 10, 50, 50}));
  ASSERT_FALSE(g.full.empty());
  for (const std::size_t i : g.full) EXPECT_GE(2 * g.blocks[i].count, g.side * g.side);
}

}  // namespace
}  // namespace huewright
