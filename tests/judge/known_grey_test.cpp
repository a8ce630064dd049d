#include "judge/known_grey.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

// CIE 15:2018, 8.2.1: L* of a luminance factor; 50 is 18.4187 % and 100 the perfect white.
TEST(KnownGrey, HasTheLuminanceOfItsLightness) {
  EXPECT_NEAR(luminanceOf({{50, 1, -2}, {}}), 0.184187, 1e-6);
  EXPECT_NEAR(luminanceOf({{100, 0, 0}, {}}), 1, 1e-12);
  EXPECT_NEAR(luminanceOf({{5, 0, 0}, {}}), 5 * 27.0 / 24389, 1e-12);
}

TEST(KnownGrey, ItsDeviationAgreesWithAFiniteDifference) {
  for (const double L : {5.0, 12.0, 50.0, 80.0}) {
    const double h = 1e-5, slope = (luminanceOf({{L + h, 0, 0}, {}}) - luminanceOf({{L - h, 0, 0}, {}})) / (2 * h);
    EXPECT_NEAR(luminanceSd({{L, 0, 0}, {0.4, 1, 1}}), 0.4 * slope, 1e-8) << L;
  }
}

TEST(GreyFrom, HasItsWord) {
  EXPECT_EQ(greyFromName(GreyFrom::Nothing), "nothing");
  EXPECT_EQ(greyFromName(GreyFrom::Assumed), "assumed");
  EXPECT_EQ(greyFromName(GreyFrom::Told), "told");
  EXPECT_EQ(greyFromName(GreyFrom::Kept), "kept");
  EXPECT_EQ(greyFromName(GreyFrom::Chart), "chart");
}

}  // namespace
}  // namespace huewright
