#include "desk/look_numbers.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace huewright::desk {
namespace {

TEST(LookNumbers, ComesBack) {
  const DeskLook look{Page::Mixes, Surround::Light, 1.75f, 1920, 1080, true, true, true};
  EXPECT_EQ(numbersOf(lookOf(numbersOf(look))), numbersOf(look));
  EXPECT_EQ(lookOf(numbersOf(look)).surround, Surround::Light);
}

TEST(LookNumbers, WhatMakesNoSenseIsAsInANewWindow) {
  const auto fresh = numbersOf(DeskLook{});
  EXPECT_EQ(numbersOf(lookOf({})), fresh);
  EXPECT_EQ(numbersOf(lookOf({{"text", 12}, {"width", -5}, {"height", std::numeric_limits<double>::quiet_NaN()}, {"page", 0}, {"surround", 9}, {"other", 3}})), fresh);
}

}  // namespace
}  // namespace huewright::desk
