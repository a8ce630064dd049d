#include "photo/raw_white.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

/// A camera whose channels are linear sRGB: balanced for daylight by nothing.
const CameraColour kCamera{{1, 1, 1}, Mat3::identity()};

/// Multipliers that make the light of this chromaticity neutral.
Vec3 balanceFor(Chromaticity white) {
  const Vec3 rgb = inverse(rgbToXyz(kSrgbPrimaries)) * toXyzAtUnitY(white);
  return {rgb[1] / rgb[0], 1, rgb[1] / rgb[2]};
}

TEST(RawWhite, lampsArePlausible) {
  struct Row {
    const char* what;
    Chromaticity white;
    bool plausible;
  };
  // CIE 15:2018, tables of illuminants, from memory; the last four are no lamps.
  const Row rows[] = {{"D50", {0.3457, 0.3585}, true},   {"D65", {0.3127, 0.3290}, true},  {"D75", {0.2990, 0.3149}, true},
                      {"A", {0.4476, 0.4074}, true},     {"F2", {0.3721, 0.3751}, true},   {"F11", {0.3805, 0.3769}, true},
                      {"F12", {0.4370, 0.4042}, true},   {"green", {0.30, 0.50}, false},   {"magenta", {0.32, 0.20}, false},
                      {"red", {0.55, 0.32}, false},      {"blue", {0.20, 0.15}, false}};
  for (const Row& row : rows) EXPECT_EQ(isPlausibleBalance(balanceFor(row.white), kCamera), row.plausible) << row.what;
}

TEST(RawWhite, withoutAMatrixOnlyTheRangeCounts) {
  const double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  EXPECT_TRUE(isPlausibleBalance({2, 1, 1.5}, {}));
  EXPECT_TRUE(isPlausibleBalance({1, 1, 3}, {}));
  for (const Vec3& bad : {Vec3{0.1, 1, 1}, Vec3{2, 1, 9}, Vec3{0, 1, 1}, Vec3{-1, 1, 1}, Vec3{nan, 1, 1}, Vec3{2, 1, inf}})
    EXPECT_FALSE(isPlausibleBalance(bad, {})) << bad[0];
}

TEST(RawWhite, neutralsAreSharesOfSaturation) {
  EXPECT_TRUE(isPlausibleNeutral({0.5, 1, 0.65}));
  EXPECT_TRUE(isPlausibleNeutral({0.58, 1.000001, 0.32}));
  EXPECT_FALSE(isPlausibleNeutral({1, 2.477, 1.462}));
  EXPECT_FALSE(isPlausibleNeutral({0, 1, 0.5}));
  EXPECT_FALSE(isPlausibleNeutral({std::nan(""), 1, 0.5}));
}

}  // namespace
}  // namespace huewright
