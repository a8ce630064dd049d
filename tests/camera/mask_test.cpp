#include "camera/mask.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <random>

#include "camera/hand_grid.hpp"

namespace huewright {
namespace {

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

}  // namespace
}  // namespace huewright
