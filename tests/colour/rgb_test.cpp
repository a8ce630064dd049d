#include "colour/rgb.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <lcms2.h>
#include <random>

namespace huewright {
namespace {

// IEC 61966-2-1:1999, 5.2 and 5.3: code to light. The knee's two sides and points worked out from the printed formula.
TEST(SrgbCurve, IecValues) {
  struct Row {
    double code, light;
  };
  for (const Row& r : {Row{0, 0}, Row{1, 1}, Row{0.04045, 0.0031308}, Row{0.02, 0.02 / 12.92}, Row{0.5, std::pow(0.555 / 1.055, 2.4)},
                       Row{0.5, 0.21404114}})
    EXPECT_NEAR(srgbToLinear(r.code), r.light, 5e-8) << r.code;
}

TEST(SrgbCurve, TheKneeIsContinuousWithinThePrintedPrecision) {
  const double below = srgbToLinear(std::nextafter(0.04045, 0)), above = srgbToLinear(std::nextafter(0.04045, 1));
  EXPECT_NEAR(below, above, 2e-8);  // the standard's rounded constants leave a step of about 1e-8
  EXPECT_NEAR(srgbFromLinear(std::nextafter(0.0031308, 0)), srgbFromLinear(std::nextafter(0.0031308, 1)), 2e-7);
}

TEST(SrgbCurve, RoundTrip) {
  for (double code = -1; code <= 1; code += 1.0 / 512) EXPECT_NEAR(srgbFromLinear(srgbToLinear(code)), code, 2e-7) << code;
}

// IEC 61966-2-1:1999, 5.2, formula 7 (and ITU-R BT.709-6, item 3): linear RGB to XYZ under D65, four decimals.
TEST(SrgbMatrix, IecMatrix) {
  constexpr Mat3 want{{{{0.4124, 0.3576, 0.1805}, {0.2126, 0.7152, 0.0722}, {0.0193, 0.1192, 0.9505}}}};
  const Mat3 got = rgbToXyz(kSrgbPrimaries);
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(got(r, c), want(r, c), 5.1e-5) << r << "," << c;
}

// lcms2's own sRGB profile and Lab conversion, in float, as the independent reference.
TEST(SrgbToLab, AgreesWithLcmsOn10000RandomColours) {
  const cmsHPROFILE srgb = cmsCreate_sRGBProfile(), lab = cmsCreateLab4Profile(nullptr);
  const cmsHTRANSFORM transform = cmsCreateTransform(srgb, TYPE_RGB_DBL, lab, TYPE_Lab_DBL, INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE);
  ASSERT_NE(transform, nullptr);
  std::mt19937_64 rng(61966);
  std::uniform_real_distribution<double> code(0, 1);
  double worst = 0;
  for (int i = 0; i < 10000; ++i) {
    const double rgb[3] = {code(rng), code(rng), code(rng)};
    cmsCIELab want;
    cmsDoTransform(transform, rgb, &want, 1);
    const Lab<D50> got = toLab(toXyzD50(LinearSrgb{srgbToLinear(rgb[0]), srgbToLinear(rgb[1]), srgbToLinear(rgb[2])}));
    worst = std::max(worst, length(toVec(got) - Vec3{want.L, want.a, want.b}));
  }
  EXPECT_LT(worst, 0.01);
  cmsDeleteTransform(transform);
  cmsCloseProfile(srgb);
  cmsCloseProfile(lab);
}

TEST(Srgb8, KnownColours) {
  struct Row {
    double code;
    Vec3 rgb;
  };
  const LinearSrgb grey{srgbToLinear(119 / 255.0), srgbToLinear(119 / 255.0), srgbToLinear(119 / 255.0)};
  EXPECT_EQ(toSrgb8(toLab(toXyzD50(grey))), (std::array<unsigned char, 3>{119, 119, 119}));
  EXPECT_EQ(toSrgb8({100, 0, 0}), (std::array<unsigned char, 3>{255, 255, 255}));
  EXPECT_EQ(toSrgb8({50, 200, 0})[1], 0);  // out of gamut is cut off, not wrapped
}

}  // namespace
}  // namespace huewright
