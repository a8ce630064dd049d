#include "scene/flat_cells.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

#include "support/chart_picture.hpp"

namespace huewright {
namespace {

using fixtures::ChartPicture;

/// Squares, light on dark, on an empty table.
Preview squares(const std::vector<Quad>& quads, double blur, double noise, Vec3 light = {0.5, 0.4, 0.3}) {
  ChartPicture picture({400, 300}, 1);
  picture.cover({{{{0, 0}, {400, 0}, {400, 300}, {0, 300}}}}, {0.05, 0.05, 0.05});
  for (const Quad& quad : quads) picture.cover(quad, light);
  return picture.preview(blur, noise);
}

Quad squareAt(Point middle, double side, double degrees) {
  const double c = std::cos(degrees * 0.017453292519943295) * side / 2, s = std::sin(degrees * 0.017453292519943295) * side / 2;
  return {{{{middle.x - c + s, middle.y - s - c}, {middle.x + c + s, middle.y + s - c}, {middle.x + c - s, middle.y + s + c}, {middle.x - c - s, middle.y - s + c}}}};
}

const FlatCell* at(const std::vector<FlatCell>& cells, Point p, double reach = 1.5) {
  const auto found = std::ranges::find_if(cells, [&](const FlatCell& c) { return std::hypot(c.centre.x - p.x, c.centre.y - p.y) < reach; });
  return found == cells.end() ? nullptr : &*found;
}

TEST(FlatCells, ASquareInAnyTurnIsSeenOnceWithItsMoments) {
  for (const double degrees : {0.0, 20.0, 45.0, 70.0}) {
    const auto cells = flatCells(squares({squareAt({150, 120}, 40, degrees)}, 0.8, 1));
    ASSERT_EQ(cells.size(), 1U) << degrees;
    const FlatCell& cell = cells.front();
    EXPECT_NEAR(cell.centre.x, 150, 0.5);
    EXPECT_NEAR(cell.centre.y, 120, 0.5);
    // The blurred rim takes 2 to 5 pixels from every side.
    EXPECT_GT(cell.area, 28 * 28);
    EXPECT_LT(cell.area, 40 * 40);
    EXPECT_NEAR(12 * std::sqrt(cell.xx * cell.yy - cell.xy * cell.xy), cell.area, 0.06 * cell.area);
    EXPECT_NEAR(cell.xx, cell.yy, 0.06 * cell.xx);
  }
}

TEST(FlatCells, BlurNoiseAndFaintEdgesAreBorne) {
  for (const double blur : {0.0, 2.0, 3.0})
    for (const double noise : {0.0, 4.0}) EXPECT_NE(at(flatCells(squares({squareAt({150, 120}, 36, 15)}, blur, noise)), {150, 120}), nullptr) << blur << ' ' << noise;
  EXPECT_NE(at(flatCells(squares({squareAt({150, 120}, 36, 15)}, 0.7, 0.5, {0.075, 0.075, 0.075})), {150, 120}), nullptr);
}

TEST(FlatCells, OtherShapesAreLeftOut) {
  const Quad strip{{{{50, 50}, {200, 50}, {200, 70}, {50, 70}}}};                    // seven times as long as wide
  const Quad triangle{{{{260, 50}, {261, 50}, {330, 120}, {250, 120}}}};
  const Quad speck = squareAt({60, 200}, 6, 0), wall{{{{100, 120}, {240, 120}, {240, 290}, {100, 290}}}};
  EXPECT_TRUE(flatCells(squares({strip, triangle, speck, wall}, 0.7, 0.5)).empty());
}

TEST(FlatCells, EmptyAndOddPicturesHaveNone) {
  EXPECT_TRUE(flatCells({{16, 16}, 1, std::vector<std::uint8_t>(768)}).empty());
  EXPECT_TRUE(flatCells({{33, 47}, 1, std::vector<std::uint8_t>(std::size_t{3} * 33 * 47, 200)}).empty());
}

}  // namespace
}  // namespace huewright
