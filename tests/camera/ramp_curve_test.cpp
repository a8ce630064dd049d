#include "camera/ramp_curve.hpp"

#include <cmath>
#include <functional>
#include <gtest/gtest.h>

#include "colour/rgb.hpp"
#include "render/random.hpp"

namespace huewright {
namespace {

using RampPhotos = std::vector<std::vector<RampPoint>>;

// Luminance factors of the grey row of the 24-patch chart (ISO 17321-1, rounded).
constexpr double kGreys[] = {0.88, 0.58, 0.36, 0.19, 0.089, 0.032};

std::vector<RampPoint> ramp(const std::function<double(double)>& camera, const Vec3& level = {0.9, 1, 0.8}) {
  std::vector<RampPoint> out;
  for (const double y : kGreys) {
    RampPoint p{{}, {0.002, 0.002, 0.002}, y};
    for (std::size_t c = 0; c < 3; ++c) p.device[c] = camera(level[c] * y);
    out.push_back(p);
  }
  return out;
}
RampFinding found(const std::function<double(double)>& camera) { return fitRamp(RampPhotos{ramp(camera)}); }

/// A picture style: an S in the codes, mixed in by `strength`, then decoded as sRGB.
double styled(double light, double strength) {
  const double c = srgbFromLinear(light);
  return srgbToLinear((1 - strength) * c + strength * c * c * (3 - 2 * c));
}

TEST(RampCurve, WhatIsStraightStaysUntouched) {
  for (const double scale : {0.1, 1.0, 7.0}) {
    const RampFinding f = found([&](double y) { return scale * y; });
    EXPECT_EQ(f.shape, RampShape::Straight);
    EXPECT_TRUE(f.curve.isStraight());
    EXPECT_NEAR(f.log_slope, 1, 1e-12);
    EXPECT_NEAR(f.rms_before, 0, 1e-12);
    for (const double v : {-0.1, 0.0, 0.3, 4.0}) {
      EXPECT_EQ(f.curve(v), v);
      EXPECT_EQ(f.curve.derivative(v), 1);
    }
  }
}

TEST(RampCurve, AWrongDecodingIsNamedAndUndone) {
  const RampFinding stored_linear = found([](double y) { return srgbToLinear(0.8 * y); });
  EXPECT_EQ(stored_linear.shape, RampShape::LinearStored);
  EXPECT_LT(stored_linear.rms_after, 1e-9);
  for (const double y : {0.02, 0.3, 1.0}) EXPECT_NEAR(stored_linear.curve(srgbToLinear(y)), y, 1e-12);
  const RampFinding stored_srgb = found([](double y) { return srgbFromLinear(0.8 * y); });
  EXPECT_EQ(stored_srgb.shape, RampShape::SrgbStored);
  for (const double y : {0.02, 0.3, 1.0}) EXPECT_NEAR(stored_srgb.curve(srgbFromLinear(y)), y, 1e-12);
}

struct Style {
  const char* name;
  std::function<double(double)> camera;
  double worst;  // relative, between the darkest and the brightest grey
};

TEST(RampCurve, PictureStylesAreStraightened) {
  const Style styles[] = {
      {"mild S", [](double y) { return styled(y, 0.3); }, 0.03},
      {"strong S", [](double y) { return styled(y, 0.6); }, 0.05},
      {"gamma 1.2", [](double y) { return std::pow(y, 1.2); }, 0.02},
      {"gamma 0.8", [](double y) { return std::pow(y, 0.8); }, 0.03},
      {"shoulder", [](double y) { return 1.3 * y / (1 + 0.3 * y); }, 0.03},
      {"linear file of a styled picture", [](double y) { return srgbToLinear(styled(y, 0.3)); }, 0.06},
  };
  for (const Style& s : styles) {
    const RampFinding f = found(s.camera);
    EXPECT_TRUE(f.shape == RampShape::Toned || f.shape == RampShape::LinearStored || f.rms_before < 0.04) << s.name;
    EXPECT_TRUE(f.curve.isMonotone()) << s.name;
    const double level = f.curve(s.camera(0.2)) / 0.2;
    for (double y = 0.035; y < 0.85; y *= 1.1) EXPECT_NEAR(f.curve(s.camera(y)) / level / y, 1, s.worst) << s.name << " at " << y;
  }
}

TEST(RampCurve, GoesOnSanelyOutsideItsRange) {
  const RampFinding f = found([](double y) { return styled(y, 0.6); });
  double last = f.curve(-0.2);
  for (double v = -0.2; v < 3; v += 0.001) {
    const double here = f.curve(v), slope = f.curve.derivative(v);
    EXPECT_GE(here, last) << v;
    EXPECT_GT(slope, 0.02) << v;
    EXPECT_LT(slope, 20) << v;
    last = here;
  }
  EXPECT_LT(std::abs(f.curve(0)), 0.02);
}

TEST(RampCurve, DerivativeIsThatOfTheCurve) {
  RampCurve c{RampCurve::Before::UndoSrgb, 0.3, 1.2, -0.1, 0.02, 0.05, 0.9};
  ASSERT_TRUE(c.isMonotone());
  for (const auto before : {RampCurve::Before::Nothing, RampCurve::Before::UndoSrgb, RampCurve::Before::ApplySrgb}) {
    c.before = before;
    for (const double v : {-0.05, 0.001, 0.01, 0.02, 0.2, 0.6, 0.95, 1.4}) {
      const double h = 1e-6 * std::max(1e-3, std::abs(v));
      EXPECT_NEAR((c(v + h) - c(v - h)) / (2 * h) / c.derivative(v), 1, 1e-5) << v;
    }
  }
}

TEST(RampCurve, KnotsAreSmoothAndRefusedWhereTheyTurnTheCurveRound) {
  RampCurve c{RampCurve::Before::Nothing, 0.3, 1.2, -0.1, 0.02, 0.01, 0.9, {{-2, 0.03, 0}, {-1, -0.05, -0.03}, {0, 0.02, 0.04}, {1, 0.01, 0}}};
  ASSERT_TRUE(c.isMonotone());
  RampCurve cubic = c;
  cubic.knots.clear();
  for (const RampCurve::Knot& k : c.knots) {
    const double v = 0.3 * std::exp(k.t);
    if (v >= c.high) continue;
    EXPECT_NEAR(std::log(c(v) / cubic(v)), k.more, 1e-12) << k.t;
  }
  for (const double v : {-0.05, 0.005, 0.011, 0.05, 0.2, 0.299, 0.31, 0.6, 0.95, 1.4}) {
    const double h = 1e-6 * std::max(1e-3, std::abs(v));
    EXPECT_NEAR((c(v + h) - c(v - h)) / (2 * h) / c.derivative(v), 1, 1e-5) << v;
  }
  auto falls = c;
  falls.knots[1].more = -2;
  EXPECT_FALSE(falls.isMonotone());
  auto back = c;
  back.knots[1].t = -2.5;
  EXPECT_FALSE(back.isMonotone());
}

// A style that bends more sharply than a cubic: what is left of the greys is followed most of the way.
TEST(RampCurve, KnotsFollowWhatACubicLeaves) {
  const auto greys = ramp([](double y) { return styled(y, 0.5) * (y > 0.15 && y < 0.25 ? 0.93 : 1.0); });
  const RampCurve c = fitRamp(RampPhotos{greys}).curve;
  ASSERT_FALSE(c.knots.empty());
  RampCurve cubic = c;
  cubic.knots.clear();
  const auto spread = [&](const RampCurve& curve) {
    double low = 1e300, high = -1e300;
    for (const RampPoint& g : greys) {
      const double off = std::log(curve(g.device[1]) / g.y);
      low = std::min(low, off), high = std::max(high, off);
    }
    return high - low;
  };
  EXPECT_LT(spread(c), 0.5 * spread(cubic));
}

TEST(RampCurve, OneBadPatchDoesLittle) {
  auto greys = ramp([](double y) { return styled(y, 0.4); });
  const RampCurve clean = fitRamp(RampPhotos{greys}).curve;
  for (double& v : greys[2].device) v *= 1.25;  // in glare
  const RampCurve spoilt = fitRamp(RampPhotos{greys}).curve;
  const double level = spoilt(0.2) / clean(0.2);
  for (const double v : {0.03, 0.1, 0.4, 0.8}) EXPECT_NEAR(spoilt(v) / clean(v) / level, 1, 0.06) << v;
}

TEST(RampCurve, SeveralPhotosShareTheCurve) {
  const auto camera = [](double y) { return styled(y, 0.5); };
  const RampFinding f = fitRamp(RampPhotos{ramp(camera, {1, 1, 1}), ramp(camera, {0.5, 0.6, 0.4})});
  EXPECT_EQ(f.shape, RampShape::Toned);
  const double level = f.curve(camera(0.2)) / 0.2;
  for (double y = 0.02; y < 0.85; y *= 1.2) EXPECT_NEAR(f.curve(camera(y)) / level / y, 1, 0.06) << y;
}

TEST(RampCurve, TooFewNeutralsSayNothing) {
  auto greys = ramp([](double y) { return styled(y, 0.5); });
  greys.resize(2);
  EXPECT_EQ(fitRamp(RampPhotos{greys}).shape, RampShape::Unknown);
  EXPECT_EQ(fitRamp({}).shape, RampShape::Unknown);
  auto burnt = ramp([](double y) { return y; });
  for (std::size_t i = 0; i < 4; ++i) burnt[i].clipped = true;
  EXPECT_EQ(fitRamp(RampPhotos{burnt}).shape, RampShape::Unknown);
}

TEST(RampCurve, CubicsThatFallAreSeen) {
  EXPECT_TRUE(RampCurve{}.isMonotone());
  EXPECT_FALSE((RampCurve{RampCurve::Before::Nothing, 0.2, 1, -0.5, 0, 0.01, 1}.isMonotone()));
  EXPECT_FALSE((RampCurve{RampCurve::Before::Nothing, 0.2, -0.1, 0, 0, 0.01, 1}.isMonotone()));
  EXPECT_FALSE((RampCurve{RampCurve::Before::Nothing, 0.1, 0.1, -0.3, 0.2, 0.01, 1}.isMonotone()));
}

TEST(Veil, IsFoundWhateverTheExposure) {
  for (const double exposure : {0.1, 1.0, 10.0}) {
    const auto greys = ramp([&](double y) { return exposure * (y + 0.01); }, {1, 1, 1});
    const auto f = fitVeil(greys, true);
    ASSERT_TRUE(f);
    EXPECT_TRUE(f->significant);
    for (std::size_t c = 0; c < 3; ++c) {
      EXPECT_NEAR(f->veil[c] / exposure, 0.01, 1e-9);
      EXPECT_NEAR(f->balance[c] * exposure, 1, 1e-9);
    }
    EXPECT_EQ(fitRamp(RampPhotos{greys}).shape, RampShape::Straight);  // not taken for a tone curve
  }
}

TEST(Veil, ErrorsOfTheGreysAreNotTakenForOne) {
  int taken = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    render::Random random(seed);
    auto greys = ramp([](double y) { return y; });
    for (auto& g : greys) {
      const double own = 1 + 0.015 * random.normal();
      for (double& v : g.device) v *= own;
    }
    taken += fitVeil(greys, true)->significant;
  }
  EXPECT_LE(taken, 10);
  EXPECT_FALSE(fitVeil(ramp([](double y) { return 0.97 * y - 0.004; }), true)->significant);  // never below zero
}

TEST(Veil, WithoutNeutralsThereIsNoBalance) {
  EXPECT_FALSE(fitVeil({}, true));
  auto black = ramp([](double) { return 0.0; });
  EXPECT_FALSE(fitVeil(black, true));
}

}  // namespace
}  // namespace huewright
