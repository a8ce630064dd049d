#include "paper/plot_symbols.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

constexpr double kSignDpi = 254;  // ten pixels a millimetre

struct SignPicture {
  DrawnPicture picture;
  int greyAt(double x, double y) const {
    return picture.rgb[3 * (static_cast<std::size_t>(10 * y) * static_cast<std::size_t>(picture.size.width) + static_cast<std::size_t>(10 * x))];
  }
};

template <class Draw>
SignPicture signOf(Draw&& draw) {
  Pen pen = Pen::picture(20, 20, kSignDpi);
  draw(pen);
  return {*pen.drawn()};
}

TEST(PlotSymbols, SquareDiscAndDiamondDifferInShapeAlone) {
  const auto square = signOf([](Pen& pen) { panelSymbol(pen, {10, 10}, 0.5, true, false); });
  const auto disc = signOf([](Pen& pen) { panelSymbol(pen, {10, 10}, 0.5, false, false); });
  const auto next = signOf([](Pen& pen) { nextSymbol(pen, {10, 10}, 0.5); });
  for (const auto* sign : {&square, &disc, &next}) EXPECT_EQ(sign->greyAt(10, 10), 128);
  constexpr double kCorner = kPanelHalf - 0.3;
  EXPECT_EQ(square.greyAt(10 + kCorner, 10 + kCorner), 128);
  EXPECT_NE(disc.greyAt(10 + kCorner, 10 + kCorner), 128);
  EXPECT_EQ(next.greyAt(10 + kNextHalf - 1, 10), 128);
  EXPECT_EQ(next.greyAt(10 + kNextHalf - 1, 10 + kNextHalf - 1), 255);
  EXPECT_EQ(square.greyAt(10 + kPanelHalf, 10), 0);  // the rim
}

TEST(PlotSymbols, WhatIsLeftOutIsCrossed) {
  const auto crossed = signOf([](Pen& pen) { panelSymbol(pen, {10, 10}, 0.5, true, true); });
  for (const double side : {-1.0, 1.0}) {
    EXPECT_EQ(crossed.greyAt(10 + 1, 10 + side), 0);
    EXPECT_EQ(crossed.greyAt(10 + kPanelHalf + 1, 10 + side * (kPanelHalf + 1)), 0);
  }
}

TEST(PlotSymbols, ARangeReachesFromEndToEnd) {
  const auto bar = signOf([](Pen& pen) { errorBar(pen, {10, 15}, {10, 5}, 2); });
  for (double y = 5; y <= 15; y += 1) EXPECT_EQ(bar.greyAt(10, y), 0) << y;
  EXPECT_EQ(bar.greyAt(11.5, 5), 0);
  EXPECT_EQ(bar.greyAt(8.5, 15), 0);
  EXPECT_EQ(bar.greyAt(11.5, 10), 255);
  EXPECT_EQ(bar.greyAt(10, 17), 255);
}

}  // namespace
}  // namespace huewright
