#include "photo/colour_path.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

TEST(ColourPath, tablesHoldOneEntryForEachCode) {
  const CurveTable eight = tabulate(srgbToLinear, 8), ten = tabulate(srgbToLinear, 10);
  ASSERT_EQ(eight->size(), 256U);
  ASSERT_EQ(ten->size(), 1024U);
  EXPECT_FLOAT_EQ((*eight)[255], 1.0F);
  EXPECT_FLOAT_EQ((*ten)[1023], 1.0F);
  // IEC 61966-2-1: code 10/255 lies on the straight part, 128/255 on the power part.
  EXPECT_NEAR((*eight)[10], 10 / 255.0 / 12.92, 1e-9);
  EXPECT_NEAR((*eight)[128], std::pow((128 / 255.0 + 0.055) / 1.055, 2.4), 1e-7);
}

TEST(ColourPath, straightCurvesAreSeen) {
  const auto three = [](double power) {
    const CurveTable table = tabulate([power](double c) { return std::pow(c, power); }, 8);
    return CurveTables{table, table, table};
  };
  EXPECT_TRUE(isLinear(three(1.0)));
  EXPECT_TRUE(isLinear(three(1.001)));
  EXPECT_FALSE(isLinear(three(1.01)));
  EXPECT_FALSE(isLinear(three(2.2)));
}

TEST(ColourPath, codesOfBothWidthsGiveTheSameColours) {
  const Mat3 matrix = rgbToXyzD50(kSrgbPrimaries);
  const CurveTable eight = tabulate(srgbToLinear, 8), sixteen = tabulate(srgbToLinear, 16);
  const auto narrow = curvesAndMatrix({eight, eight, eight}, matrix), wide = curvesAndMatrix({sixteen, sixteen, sixteen}, matrix);
  const std::uint8_t codes8[] = {0, 0, 0, 9, 200, 17, 255, 9, 255, 255, 9};  // step of four: the fourth is no colour
  std::uint16_t codes16[11] = {};
  for (int i = 0; i < 11; ++i) codes16[i] = static_cast<std::uint16_t>(codes8[i] * 257);
  float from8[6] = {}, from16[6] = {};
  narrow->convert({0, 0, 3, Sample::Code8, 4, codes8}, 1, 2, from8);
  wide->convert({0, 0, 3, Sample::Code16, 4, codes16}, 1, 2, from16);
  for (int i = 0; i < 6; ++i) EXPECT_NEAR(from8[i], from16[i], 1e-6);
  const Vec3 want = matrix * Vec3{srgbToLinear(200 / 255.0), srgbToLinear(17 / 255.0), 1.0};
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(from8[i], want[i], 3e-7);
}

TEST(ColourPath, aCodeBeyondTheBitsInUseReadsNothingElse) {
  const CurveTable ten = tabulate([](double c) { return c; }, 10);
  const std::uint16_t stray[] = {65535, 65535, 65535};
  float xyz[3] = {};
  curvesAndMatrix({ten, ten, ten}, Mat3::identity())->convert({0, 0, 1, Sample::Code16, 3, stray}, 0, 1, xyz);
  EXPECT_FLOAT_EQ(xyz[0], 1.0F);
}

TEST(ColourPath, balanceIsCutOffAtWhite) {
  const float rgb[] = {0.1F, 0.2F, 0.3F, 0.9F, -0.01F, 0.25F};
  float out[6] = {};
  balanceAndMatrix({2, 1, 3}, Mat3::diagonal({1, 10, 100}))->convert({0, 0, 2, Sample::Xyz, 3, rgb}, 0, 2, out);
  const float want[] = {0.2F, 2.0F, 90.0F, 1.0F, -0.1F, 75.0F};
  for (int i = 0; i < 6; ++i) EXPECT_NEAR(out[i], want[i], 1e-5) << i;
}

TEST(ColourPath, xyzGoesThroughUntouched) {
  const float xyz[] = {0.1F, 0.2F, 0.3F, 0.4F, 0.5F, 0.6F};
  float out[3] = {};
  alreadyXyz()->convert({0, 0, 2, Sample::Xyz, 3, xyz}, 1, 1, out);
  EXPECT_EQ(out[0], 0.4F);
  EXPECT_EQ(out[2], 0.6F);
}

}  // namespace
}  // namespace huewright
