#include "photo/orientation.hpp"

#include <gtest/gtest.h>

#include "support/fixtures.hpp"

namespace huewright {
namespace {

TEST(Orientation, everyStoredPixelLandsWhereExifSays) {
  const fixtures::Picture stored = fixtures::pattern({7, 4});
  for (int orientation = 1; orientation <= 8; ++orientation) {
    const fixtures::Picture want = fixtures::upright(stored, orientation);
    EXPECT_EQ(uprightSize(orientation, stored.size), want.size);
    const Turn t = turnUpright(orientation, stored.size);
    for (int y = 0; y < 4; ++y)
      for (int x = 0; x < 7; ++x) {
        const std::uint16_t* there = want.at(t.xx * x + t.xy * y + t.x0, t.yx * x + t.yy * y + t.y0);
        EXPECT_TRUE(std::equal(there, there + 3, stored.at(x, y))) << orientation << " at " << x << "," << y;
      }
  }
}

TEST(Orientation, rectanglesGoBackToTheirStoredPixels) {
  const Size stored{7, 4};
  for (int orientation = 1; orientation <= 8; ++orientation) {
    const Size shown = uprightSize(orientation, stored);
    const Turn t = turnUpright(orientation, stored);
    for (int x = 0; x < shown.width - 1; ++x)
      for (int y = 0; y < shown.height - 2; ++y) {
        const Rect upright{x, y, 2, 3}, back = toStored(upright, orientation, stored);
        EXPECT_EQ(back.width * back.height, 6);
        for (int sy = back.y; sy < back.y + back.height; ++sy)
          for (int sx = back.x; sx < back.x + back.width; ++sx) {
            const int ux = t.xx * sx + t.xy * sy + t.x0, uy = t.yx * sx + t.yy * sy + t.y0;
            EXPECT_TRUE(ux >= x && ux < x + 2 && uy >= y && uy < y + 3) << orientation;
          }
      }
  }
}

TEST(Orientation, unknownNumbersCountAsUpright) {
  EXPECT_EQ(uprightSize(0, {7, 4}), (Size{7, 4}));
  EXPECT_EQ(toStored({1, 2, 3, 1}, 9, {7, 4}), (Rect{1, 2, 3, 1}));
}

}  // namespace
}  // namespace huewright
