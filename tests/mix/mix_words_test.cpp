#include "mix/mix_words.hpp"

#include <gtest/gtest.h>

#include "mix/mix_scene.hpp"

namespace huewright {
namespace {

using namespace mixing;

TEST(MixWords, Leans) {
  const Lab<D50> card{50, -20, -6};
  EXPECT_EQ(leanWords({50, -20, -6}, card), "");
  EXPECT_EQ(leanWords({50.1, -20.1, -6}, card), "");
  EXPECT_EQ(leanWords({46, -20, -6}, card), "deeper");
  EXPECT_EQ(leanWords({53, -20, -6}, card), "lighter");
  EXPECT_EQ(leanWords({50, -26, -6}, card), "greener");
  EXPECT_EQ(leanWords({50, -14, -6}, card), "redder");
  EXPECT_EQ(leanWords({50, -20, -12}, card), "bluer");
  EXPECT_EQ(leanWords({50, -20, 0}, card), "yellower");
  EXPECT_EQ(leanWords({46, -23, -6}, card), "deeper and greener");
}

TEST(MixWords, StepsInCoats) {
  const Aim aim = knowingAim(madeColour(0.25, 4));
  EXPECT_EQ(stepWords(aim.at({1, 3}, 5)), "about one coat too deep");
  EXPECT_EQ(stepWords(aim.at({1, 3}, 3)), "about one coat too light");
  EXPECT_EQ(stepWords(aim.at({1, 3}, 4)), "");
  EXPECT_EQ(stepWords(aim.at({1, 3}, 4.5)), "about half a coat too deep");
}

TEST(MixWords, CoatSteps) {
  EXPECT_EQ(coatStepWords(0.25), "a quarter of a coat");
  EXPECT_EQ(coatStepWords(0.45), "half a coat");
  EXPECT_EQ(coatStepWords(1.05), "one coat");
  EXPECT_EQ(coatStepWords(2.3), "2.5 coats");
  EXPECT_EQ(coatStepWords(2), "2 coats");
}

TEST(MixWords, MixesAndDistances) {
  MixChoice choice;
  choice.parts = {1, 4};
  choice.coats = 4;
  choice.de00 = 0.44;
  choice.high = 1.04;
  EXPECT_EQ(mixWords(choice), "1:4 at 4 coats");
  EXPECT_EQ(distanceWords(choice), "0.4 (0.0 to 1.0)");
}

}  // namespace
}  // namespace huewright
