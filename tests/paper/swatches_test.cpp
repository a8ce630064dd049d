#include "paper/swatches.hpp"

#include <array>
#include <gtest/gtest.h>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

TEST(Swatches, WhatSrgbCannotShow) {
  for (const Lab<D50>& lab : {Lab<D50>{0, 0, 0}, Lab<D50>{100, 0, 0}, Lab<D50>{50, 20, -10}, Lab<D50>{48, -23.7, -7.2}}) EXPECT_FALSE(outsideSrgb(lab)) << lab.L;
  for (const Lab<D50>& lab : {Lab<D50>{50, -80, -40}, Lab<D50>{101, 0, 0}, Lab<D50>{60, 0, 130}}) EXPECT_TRUE(outsideSrgb(lab)) << lab.L;
  // The corners of sRGB themselves lie in it.
  for (const LinearSrgb& rgb : {LinearSrgb{1, 0, 0}, LinearSrgb{0, 1, 0}, LinearSrgb{0, 0, 1}, LinearSrgb{0, 1, 1}}) EXPECT_FALSE(outsideSrgb(toLab(toXyzD50(rgb))));
}

TEST(Swatches, EdgesTouch) {
  const std::array labs{Lab<D50>{40, 30, 10}, Lab<D50>{60, -30, 0}, Lab<D50>{70, 0, 40}};
  Pen pen = Pen::picture(40, 20, 25.4);
  drawSwatches(pen, {3, 4, 30, 10}, labs);
  const auto picture = pen.drawn();
  ASSERT_TRUE(picture);
  const auto at = [&](std::size_t x, std::size_t y) { return std::array<unsigned char, 3>{picture->rgb[3 * (40 * y + x)], picture->rgb[3 * (40 * y + x) + 1], picture->rgb[3 * (40 * y + x) + 2]}; };
  for (std::size_t x = 4; x < 32; ++x) EXPECT_EQ(at(x, 9), toSrgb8(labs[(x - 3) / 10])) << x;
  EXPECT_EQ(at(1, 9), (std::array<unsigned char, 3>{255, 255, 255}));
  EXPECT_EQ(at(35, 9), (std::array<unsigned char, 3>{255, 255, 255}));
}

}  // namespace
}  // namespace huewright
