#include "scene/grey_view.hpp"

#include <array>
#include <cmath>
#include <gtest/gtest.h>

namespace huewright {
namespace {

constexpr std::array<std::uint8_t, 6> kLevels{0, 100, 200, 40, 255, 10};
const GreyView kView{{3, 2}, kLevels};

TEST(GreyView, PixelsAreReadAtTheirCentres) {
  EXPECT_EQ(levelAt(kView, {0.5, 0.5}), 0);
  EXPECT_EQ(levelAt(kView, {2.5, 0.5}), 200);
  EXPECT_EQ(levelAt(kView, {1.5, 1.5}), 255);
  EXPECT_EQ(levelAt(kView, {2.5, 1.5}), 10);
}

TEST(GreyView, BetweenThemByShares) {
  EXPECT_DOUBLE_EQ(*levelAt(kView, {1.0, 0.5}), 50);
  EXPECT_DOUBLE_EQ(*levelAt(kView, {1.0, 1.0}), (0 + 100 + 40 + 255) / 4.0);
}

TEST(GreyView, NothingBeyondTheOutermostCentres) {
  for (const Point& at : {Point{0.4, 1}, Point{1, 0.4}, Point{2.6, 1}, Point{1, 1.6}, Point{NAN, 1}}) EXPECT_FALSE(levelAt(kView, at));
}

// IEC 61966-2-1: code 188 of 255 is light 0.5029, 255 is 1.
TEST(GreyView, LightFollowsTheCurveOfSrgb) {
  constexpr std::array<std::uint8_t, 2> kCodes{188, 255};
  EXPECT_NEAR(*lightAt({{2, 1}, kCodes}, {0.5, 0.5}), 0.5029, 5e-5);
  EXPECT_NEAR(*lightAt({{2, 1}, kCodes}, {1.0, 0.5}), (0.5029 + 1) / 2, 5e-5);
}

}  // namespace
}  // namespace huewright
