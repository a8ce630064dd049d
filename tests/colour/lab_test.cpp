#include "colour/lab.hpp"

#include <cmath>
#include <gtest/gtest.h>

#include "colour/adapt.hpp"

namespace huewright {
namespace {

TEST(Lab, WhiteAndBlack) {
  const Vec3 w = kWhite<D50>;
  const Lab<D50> white = toLab(Xyz<D50>{w[0], w[1], w[2]});
  EXPECT_NEAR(white.L, 100, 1e-12);
  EXPECT_NEAR(white.a, 0, 1e-12);
  EXPECT_NEAR(white.b, 0, 1e-12);
  const Lab<D50> black = toLab(Xyz<D50>{0, 0, 0});
  EXPECT_NEAR(black.L, 0, 1e-12);
}

// L* = 116 (Y/Yn)^(1/3) − 16 above the knee, (29/3)³ Y/Yn below it. CIE 15:2018, 8.2.1.1.
TEST(Lab, LightnessByHand) {
  struct Row {
    double y, L;
  };
  for (const Row& r : {Row{0.18, 116 * std::cbrt(0.18) - 16}, Row{0.5, 116 * std::cbrt(0.5) - 16}, Row{0.001, 24389.0 / 27 * 0.001}}) {
    const Vec3 w = kWhite<D50>;
    EXPECT_NEAR(toLab(Xyz<D50>{r.y * w[0], r.y, r.y * w[2]}).L, r.L, 1e-9);
  }
}

TEST(Lab, RoundTripOverAGrid) {
  double worst = 0;
  for (double L = 0; L <= 100; L += 5)
    for (double a = -120; a <= 120; a += 12)
      for (double b = -120; b <= 120; b += 12) {
        const Lab<D50> there{L, a, b}, back = toLab(toXyz(there));
        worst = std::max(worst, length(toVec(there) - toVec(back)));
      }
  EXPECT_LT(worst, 1e-10);
}

TEST(Lab, DerivativesAgreeWithCentralDifferences) {
  for (const Vec3 xyz : {Vec3{0.3, 0.4, 0.2}, Vec3{0.02, 0.03, 0.05}, Vec3{0.001, 0.002, 0.003}}) {
    const Mat3 at = labByXyz(Xyz<D50>{xyz[0], xyz[1], xyz[2]});
    for (std::size_t k = 0; k < 3; ++k) {
      constexpr double h = 1e-7;
      Vec3 p = xyz, m = xyz;
      p[k] += h, m[k] -= h;
      const Vec3 d = (0.5 / h) * (toVec(toLab(Xyz<D50>{p[0], p[1], p[2]})) - toVec(toLab(Xyz<D50>{m[0], m[1], m[2]})));
      for (std::size_t r = 0; r < 3; ++r) EXPECT_NEAR(at(r, k), d[r], 1e-4 * (1 + std::abs(d[r])));
    }
  }
}

TEST(Lab, HueAndChroma) {
  struct Row {
    Vec3 lab;
    double chroma, hue;
  };
  for (const Row& r : {Row{{50, 3, 4}, 5, 53.13010235}, Row{{50, -10, 0}, 10, 180}, Row{{50, 0, -2}, 2, 270}, Row{{50, 0, 0}, 0, 0}}) {
    EXPECT_NEAR(chroma(r.lab), r.chroma, 1e-12);
    EXPECT_NEAR(hueDegrees(r.lab), r.hue, 1e-7);
  }
}

}  // namespace
}  // namespace huewright
