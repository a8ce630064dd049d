#include "camera/code_steps.hpp"

#include <cmath>
#include <gtest/gtest.h>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

// IEC 61966-2-1 by hand: below code 10.31 the curve is straight, one code is 1 / 255 / 12.92; at code 254 it is 1 − ((254 / 255 + 0.055) / 1.055)^2.4.
TEST(CodeSteps, OneCodeIsTheCurvesOwnStep) {
  const Vec3 light = lightPerCode({0, 1, srgbToLinear(100.0 / 255)});
  EXPECT_NEAR(light[0], 1 / 255.0 / 12.92, 1e-12);
  EXPECT_NEAR(light[1], 1 - std::pow((254.0 / 255 + 0.055) / 1.055, 2.4), 1e-12);
  EXPECT_NEAR(light[2], std::pow((101.0 / 255 + 0.055) / 1.055, 2.4) - std::pow((100.0 / 255 + 0.055) / 1.055, 2.4), 1e-12);
}

TEST(CodeSteps, OutsideTheRangeAsAtItsEnds) {
  EXPECT_EQ(lightPerCode({-0.2, 1.5, 0})[0], lightPerCode({0, 0, 0})[0]);
  EXPECT_EQ(lightPerCode({-0.2, 1.5, 0})[1], lightPerCode({0, 1, 0})[1]);
}

// ITU-T T.871: R = Y + 1.402 Cr, G = Y − 0.344136 Cb − 0.714136 Cr, B = Y + 1.772 Cb.
TEST(CodeSteps, StepsOfLumaAndChromaAddUp) {
  const Vec3 rgb{0.2, 0.2, 0.2}, code = lightPerCode(rgb);
  struct Row {
    Vec3 rounding, codes;
  };
  // Whole codes: a step under one moves the decoded value by one at most, a step of 1.125 by one or two.
  for (const Row& row : {Row{{0.5, 0.5, 0.5}, {2.402, 2.058272, 2.772}}, Row{{1.125, 0.5, 0.5}, {3.402, 3.058272, 3.772}}, Row{{0.5, 2.25, 0.5}, {2.402, 2.746544, 6.316}}}) {
    const Vec3 light = lightOfSteps(rgb, row.rounding);
    for (std::size_t k = 0; k < 3; ++k) EXPECT_NEAR(light[k], row.codes[k] * code[k], 1e-12);
  }
}

}  // namespace
}  // namespace huewright
