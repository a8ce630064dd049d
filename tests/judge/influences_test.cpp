#include "judge/influences.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

Measured measured(const Lab<D50>& lab) {
  Measured m;
  m.xyz = toXyz(lab);
  m.patch.mean = m.xyz;
  m.patch.of_mean = 1e-8 * Mat3::identity();
  m.correction = Mat3::identity();
  return m;
}

const std::vector<Measured> kPair{measured({41, -28, -14}), measured({45, -30, -12})};

double varianceOf(const std::vector<Influence>& all, Cause cause, std::size_t colour) {
  double v = 0;
  for (const auto& i : all)
    if (causeOf(i.part) == cause) v += dot(i.on_lab[colour], i.on_lab[colour]);
  return v;
}

/// Of the plain Lab difference of colour 0 and 1.
double differenceVariance(const std::vector<Influence>& all, Cause cause) {
  double v = 0;
  for (const auto& i : all)
    if (causeOf(i.part) == cause) v += dot(i.on_lab[0] - i.on_lab[1], i.on_lab[0] - i.on_lab[1]);
  return v;
}

TEST(Influences, ARenderedFileHasRenderingALinearOneNot) {
  const auto rendered = influences(kPair, true, Light(), {.linear = false}), linear = influences(kPair, true, Light(), {.linear = true});
  EXPECT_GT(varianceOf(rendered, Cause::Rendering, 0), 0.1);
  EXPECT_EQ(varianceOf(linear, Cause::Rendering, 0), 0);
}

TEST(Influences, SharedCausesNearlyCancelInTheDifference) {
  const auto all = influences(kPair, true, Light(), {});
  for (const Cause c : {Cause::Grey, Cause::Rendering, Cause::Camera})
    EXPECT_LT(differenceVariance(all, c), 0.1 * (varianceOf(all, c, 0) + varianceOf(all, c, 1))) << causeName(c);
}

TEST(Influences, IdenticalColoursFeelSharedCausesAlike) {
  const std::vector<Measured> twins{measured({45, -30, -12}), measured({45, -30, -12})};
  const auto all = influences(twins, true, Light(), {});
  for (const Cause c : {Cause::Grey, Cause::Rendering, Cause::Camera}) EXPECT_LT(differenceVariance(all, c), 1e-18) << causeName(c);
}

TEST(Influences, ACardOfNumbersFeelsNothing) {
  const std::vector<Measured> one{measured({41, -28, -14})};
  const auto all = influences(one, false, Light(), {});
  for (const auto& i : all) {
    ASSERT_EQ(i.on_lab.size(), 2u);
    EXPECT_EQ(length(i.on_lab[1]), 0);
  }
}

TEST(Influences, AMeasuredGreyIsWorthMore) {
  EXPECT_LT(varianceOf(influences(kPair, true, Light(), {.grey_measured = true}), Cause::Grey, 0),
            varianceOf(influences(kPair, true, Light(), {.grey_measured = false}), Cause::Grey, 0) + 1e-12);
}

TEST(Influences, AKeptGreyCountsWithItsOwnDeviations) {
  Patch patch = kPair[0].patch;
  patch.mean = toXyz(Lab<D50>{50, 0, -1});
  patch.pixels = 1000;
  const Light light = Light::fromGreys(std::span(&patch, 1), patch.mean).value();
  const KnownGrey grey{{50, 0, -1}, {0.5, 0.3, 0.4}};
  const auto all = influences(kPair, true, light, {.grey_measured = true, .grey = grey});
  double L = 0;
  for (const auto& i : all) {
    EXPECT_NE(i.part, Part::GreyValue);
    EXPECT_NE(i.part, Part::GreyTint);
    if (i.part == Part::GreyKept) L += i.on_lab[0][0] * i.on_lab[0][0];
  }
  // Half a unit of L* at 50 moves a colour of 41 by (41 + 16) ÷ (50 + 16) of it: both scale with the cube root of the light.
  EXPECT_NEAR(std::sqrt(L), 0.5 * 57 / 66, 0.02);
  const auto with_chart = influences(kPair, true, light, {.grey_measured = true, .grey = grey, .tint_by_chart = true});
  EXPECT_EQ(std::ranges::count(with_chart, Part::GreyKept, &Influence::part), 1);  // its lightness alone
  EXPECT_EQ(std::ranges::count(with_chart, Part::GreyTint, &Influence::part), 3);
  EXPECT_LT(varianceOf(influences(kPair, true, light, {.grey_measured = true, .grey = KnownGrey{{50, 0, -1}, {0.1, 0.1, 0.1}}}), Cause::Grey, 0), varianceOf(all, Cause::Grey, 0));
}

TEST(Influences, RoundingOfAJpegCountsUntilNoiseAveragesItOut) {
  Measured grey = measured({60, 0, 0});
  grey.patch.pixels = 6400;  // a hundred blocks
  const auto lumaOnly = [&](double step, double spread_of_blocks) {
    const Vec3 rgb = kXyzD50ToSrgb * toVec(grey.xyz);
    const double by_code = (srgbToLinear(srgbFromLinear(rgb[1]) + 1e-4) - rgb[1]) / (255 * 1e-4);
    const double y = spread_of_blocks * by_code / 10;  // of the mean of a hundred blocks
    grey.patch.of_mean = outer(y * Vec3(kWhite<D50>), y * Vec3(kWhite<D50>));
    const std::vector<Measured> pair{grey, grey};
    const auto all = influences(pair, true, Light(), {.rounding = Vec3{step, 1e-6, 1e-6}});
    double v = 0;
    for (const auto& i : all)
      if (i.part == Part::Rounding) v += dot(i.on_lab[0], i.on_lab[0]);
    return std::sqrt(v);
  };
  // A step of one code at L* 60 is about 0.39 of L*; a uniform error of a step has 1/√12 of it as its standard deviation.
  const double code = toLab(Xyz<D50>{0, srgbToLinear((std::round(255 * srgbFromLinear(toXyz(Lab<D50>{60, 0, 0}).Y)) + 1) / 255), 0}).L -
                      toLab(Xyz<D50>{0, srgbToLinear(std::round(255 * srgbFromLinear(toXyz(Lab<D50>{60, 0, 0}).Y)) / 255), 0}).L;
  EXPECT_NEAR(lumaOnly(1, 0), code / std::sqrt(12.0), 0.03 * code);
  EXPECT_NEAR(lumaOnly(2, 0), 2 * lumaOnly(1, 0), 1e-3);
  EXPECT_LT(lumaOnly(1, 0.3), 0.5 * lumaOnly(1, 0));
  EXPECT_LT(lumaOnly(1, 1), 1e-6);
}

TEST(Influences, ClippingWidensTheClippedColourOnly) {
  auto pair = kPair;
  pair[0].patch.clipped_top = 0.4;
  const auto plain = influences(kPair, true, Light(), {}), clipped = influences(pair, true, Light(), {});
  EXPECT_GT(varianceOf(clipped, Cause::Rendering, 0), varianceOf(plain, Cause::Rendering, 0) + 1);
  EXPECT_EQ(varianceOf(clipped, Cause::Rendering, 1), varianceOf(plain, Cause::Rendering, 1));
}

TEST(Influences, TheTextureIsThatOfThePatch) {
  auto pair = kPair;
  const double sd = 0.002;
  pair[0].patch.of_mean = Mat3{};
  pair[0].patch.of_mean(1, 1) = sd * sd;
  const auto all = influences(pair, true, Light(), {});
  EXPECT_NEAR(std::sqrt(varianceOf(all, Cause::Texture, 0)), sd * length(labByXyz(pair[0].xyz) * Vec3{0, 1, 0}), 1e-9);
}

TEST(CauseNames, AreTheBudgetsKeys) {
  EXPECT_EQ(causeName(Cause::Texture), "texture");
  EXPECT_EQ(causeName(Cause::CardKind), "card_kind");
}

}  // namespace
}  // namespace huewright
