#include "camera/profile.hpp"

#include <cmath>
#include <gtest/gtest.h>

#include "colour/rgb.hpp"
#include "profile_sim.hpp"

namespace huewright {
namespace {

const Vec3 kSome[] = {{0.2, 0.3, 0.1}, {0.8, 0.8, 0.8}, {0.02, 0.4, 0.001}, {0.3, 0, 0.1}, {0.3, -0.05, 0.2}, {-0.01, -0.02, -0.03}, {1e-7, 2e-7, 1e-7}};

ColourMap veiledMap(double veil = 0) {
  const render::Sensor sensor('a', render::illuminant("D65"));
  auto patches = sim::chartPatches(sensor);
  for (auto& p : patches) p.device = p.device + Vec3{veil, veil, veil};
  return *fitProfile(sim::Photos{patches}, {DeviceKind::CameraRgb, {}, 1e-4})->profile.map;
}

// Finlayson, Mackiewicz, Hurlbert (2015), equation 9 (from memory): the terms of degree 2. Ours hold the same roots.
TEST(RootTerms, AreThoseOfDegreeTwo) {
  const double r = 0.3, g = 0.5, b = 0.2;
  const Terms t = rootTerms({r, g, b});
  EXPECT_EQ(t[0], r);
  EXPECT_EQ(t[1], g);
  EXPECT_EQ(t[2], b);
  EXPECT_NEAR(t[3] + 0.5 * (r + g), std::sqrt(r * g), 1e-4);
  EXPECT_NEAR(t[4] + 0.5 * (g + b), std::sqrt(g * b), 1e-4);
  EXPECT_NEAR(t[5] + 0.5 * (r + b), std::sqrt(r * b), 1e-4);
}

TEST(RootTerms, GrowWithExposureOnly) {
  for (const Vec3& v : kSome)
    for (const double k : {0.1, 3.0, 10.0}) {
      const Terms one = rootTerms(v), many = rootTerms(k * v);
      for (std::size_t i = 0; i < kTerms; ++i) EXPECT_NEAR(many[i], k * one[i], 1e-14 * k);
    }
  EXPECT_EQ(rootTerms({0, 0, 0}), Terms{});
}

TEST(RootTerms, DerivativesAreExact) {
  for (const Vec3& v : kSome) {
    const auto by = rootTermsBy(v);
    const double h = 1e-6 * length(v);
    for (std::size_t c = 0; c < 3; ++c) {
      Vec3 up = v, down = v;
      up[c] += h;
      down[c] -= h;
      const Terms a = rootTerms(up), b = rootTerms(down);
      for (std::size_t i = 0; i < kTerms; ++i) EXPECT_NEAR((a[i] - b[i]) / (2 * h), by[i][c], 2e-5 * (1 + std::abs(by[i][c]))) << i << c;
    }
  }
}

TEST(CameraProfile, WithoutAMapIsLinearSrgb) {
  const CameraProfile p{ProfileKind::Builtin, {}};
  const Vec3 rgb{0.2, 0.5, 0.1};
  const Xyz<D50> want = toXyzD50({rgb[0], rgb[1], rgb[2]});
  EXPECT_LT(length(toVec(p.apply(rgb)) - toVec(want)), 1e-15);
  EXPECT_EQ(p.derivative(rgb), kSrgbToXyzD50);
  EXPECT_EQ(p.extrapolation(rgb), 0);
  EXPECT_TRUE(p.shifts(rgb).empty());
}

TEST(ColourMap, DerivativeIsExactThroughCurveVeilAndGain) {
  ColourMap m = veiledMap(0.01);
  ASSERT_GT(m.veil[0], 0);
  m.curve = {RampCurve::Before::Nothing, 0.2, 1.2, -0.05, 0.01, 0.01, 0.9};
  const Vec3 gain{1.1, 0.9, 1.2};
  for (const Vec3& d : {Vec3{0.3, 0.2, 0.4}, Vec3{0.05, 0.3, 0.02}, Vec3{0.9, 0.95, 0.3}}) {
    const Mat3 by = m.derivative(d, gain);
    for (std::size_t c = 0; c < 3; ++c) {
      Vec3 up = d, down = d;
      up[c] += 1e-6;
      down[c] -= 1e-6;
      const Vec3 slope = 5e5 * (toVec(m.apply(up, gain)) - toVec(m.apply(down, gain)));
      for (std::size_t r = 0; r < 3; ++r) EXPECT_NEAR(slope[r], by(r, c), 1e-6);
    }
  }
}

TEST(ColourMap, AnotherExposureComesBackByItsGrey) {
  const ColourMap m = veiledMap();
  const Vec3 grey{0.1, 0.1, 0.05}, colour{0.2, 0.15, 0.03};
  const double y = 0.19;
  const Vec3 gain = m.gainFor(grey, y);
  const Vec3 neutral = m.neutral(y);
  for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(gain[c] * grey[c], neutral[c], 1e-15);
  const Vec3 dim{0.3 * colour[0], 0.3 * colour[1], 0.3 * colour[2]};
  const Vec3 want = toVec(m.apply(colour, gain)), have = toVec(m.apply(dim, m.gainFor(0.3 * grey, y)));
  EXPECT_LT(length(want - have), 1e-14);
  const Lab<D50> lab = toLab(m.apply(m.neutral(y)));
  EXPECT_LT(chroma(toVec(lab)), 2);  // what is grey stays so
  EXPECT_NEAR(toXyz(lab).Y, y, 0.01 * y);
}

TEST(ColourMap, ExtrapolationIsZeroOnTheChartAndGrowsBeyond) {
  const render::Sensor sensor('a', render::illuminant("D65"));
  const ColourMap m = veiledMap();
  for (const auto& s : render::chart24()) EXPECT_LT(m.extrapolation(0.6 * sensor.raw(s)), 1e-9);
  double last = 0;
  for (const double purity : {0.5, 0.2, 0.05, 0.0}) {
    const double here = m.extrapolation({purity / m.balance[0], 1 / m.balance[1], purity / m.balance[2]});
    EXPECT_GE(here, last);
    last = here;
  }
  EXPECT_GT(last, 0.5);
  EXPECT_NEAR(m.extrapolation({0.01, 0.1, 0.02}), m.extrapolation({0.1, 1, 0.2}), 1e-9);  // whatever the brightness
  EXPECT_EQ(m.extrapolation({0, 0, 0}), 0);
}

TEST(ColourMap, ShiftsGoTogetherForNeighboursAndAddUpToTheCovariance) {
  const ColourMap m = veiledMap();
  const Vec3 a{0.2, 0.3, 0.1}, near{0.202, 0.3, 0.101}, far{0.3, 0.1, 0.2};
  const auto one = m.shifts(a), same = m.shifts(near), other = m.shifts(far);
  ASSERT_EQ(one.size(), kParameters + 18);
  ASSERT_EQ(other.size(), one.size());
  Mat3 sum;
  double apart = 0, total = 0, apart_far = 0;
  for (std::size_t i = 0; i < one.size(); ++i) {
    sum = sum + outer(one[i], one[i]);
    apart += dot(one[i] - same[i], one[i] - same[i]);
    apart_far += dot(one[i] - other[i], one[i] - other[i]);
    total += dot(one[i], one[i]);
  }
  EXPECT_EQ(sum, m.covariance(a));
  EXPECT_LT(apart, 0.01 * total);
  EXPECT_GT(apart_far, 0.5 * total);
}

TEST(ColourMap, StaysFiniteForAllValues) {
  const ColourMap m = veiledMap();
  for (const Vec3& d : {Vec3{0, 0, 0}, Vec3{-1, -1, -1}, Vec3{-0.1, 0.5, 0}, Vec3{1e-12, 0, 0}, Vec3{100, 0, 0}}) {
    EXPECT_TRUE(std::isfinite(length(toVec(m.apply(d)))));
    EXPECT_TRUE(std::isfinite(trace(m.derivative(d))));
    EXPECT_TRUE(std::isfinite(m.extrapolation(d)));
    EXPECT_TRUE(std::isfinite(trace(m.covariance(d))));
  }
}

}  // namespace
}  // namespace huewright
