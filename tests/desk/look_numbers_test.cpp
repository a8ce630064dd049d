#include "desk/look_numbers.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace huewright::desk {
namespace {

TEST(LookNumbers, ComesBack) {
  const DeskLook look{Page::Live, Surround::Light, 1.75f, 1920, 1080, true, true, true, true};
  EXPECT_EQ(numbersOf(lookOf(numbersOf(look, {})), {}), numbersOf(look, {}));
  EXPECT_EQ(lookOf(numbersOf(look, {})).surround, Surround::Light);
  EXPECT_EQ(lookOf(numbersOf(look, {})).page, Page::Live);
  EXPECT_TRUE(lookOf(numbersOf(look, {})).vapour_told);
}

TEST(LookNumbers, WhatMakesNoSenseIsAsInANewWindow) {
  const auto fresh = numbersOf(DeskLook{}, {});
  EXPECT_EQ(numbersOf(lookOf({}), cupOf({})), fresh);
  EXPECT_EQ(numbersOf(lookOf({{"text", 12}, {"width", -5}, {"height", std::numeric_limits<double>::quiet_NaN()}, {"page", 0}, {"surround", 9}, {"other", 3}}), {}), fresh);
}

TEST(LookNumbers, TheCupComesBackAndWhatMakesNoSenseOfItDoesNot) {
  PourViewState cup;
  cup.area_m2 = 1.25;
  cup.airbrush = true;
  cup.loss = 0.3;
  cup.film_um = 12;
  cup.rest_ml = 0;
  cup.cup_ml = 150;
  cup.strong_density = 0.98;
  cup.scale_g = 0.01;
  const auto numbers = numbersOf({}, cup);
  const PourViewState again = cupOf(numbers);
  EXPECT_EQ(numbersOf({}, again), numbers);
  EXPECT_EQ(again.rest_ml, 0);
  EXPECT_FALSE(again.weak_density);
  const PourViewState odd = cupOf({{"cup_loss", 1}, {"cup_area", 0}, {"cup_film", -3}, {"cup_strong", 11}});
  EXPECT_FALSE(odd.loss || odd.film_um || odd.strong_density);
  EXPECT_EQ(odd.area_m2, PourViewState{}.area_m2);
}

}  // namespace
}  // namespace huewright::desk
