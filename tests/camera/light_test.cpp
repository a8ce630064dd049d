#include "camera/light.hpp"

#include <cmath>
#include <gtest/gtest.h>

namespace huewright {
namespace {

/// A grey patch at a place, seen under a light that multiplies the sharpened channels.
Patch grey(Point at, double y, const Vec3& light) {
  Patch p;
  const Vec3 xyz = inverse(kBradford) * (Mat3::diagonal(light) * (y * (kBradford * kWhite<D50>)));
  p.mean = {xyz[0], xyz[1], xyz[2]};
  p.of_mean = 1e-8 * Mat3::identity();
  p.pixels = 1000;
  p.centre = at;
  return p;
}

double apart(const Mat3& a, const Mat3& b) {
  double w = 0;
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) w = std::max(w, std::abs(a(r, c) - b(r, c)));
  return w;
}

TEST(Light, WithoutGreysNothingIsChanged) {
  EXPECT_EQ(apart(Light().correction({5, 5}), Mat3::identity()), 0);
  EXPECT_TRUE(Light().weights({5, 5}).empty());
}

TEST(Light, OneGreyUndoesACastEverywhere) {
  const Vec3 cast{1.3, 0.9, 0.6};
  const Patch g = grey({100, 100}, 0.2, cast);
  const auto light = Light::fromGreys(std::span(&g, 1), 0.2);
  ASSERT_TRUE(light);
  const Patch other = grey({500, 40}, 0.5, cast);
  const Vec3 back = light->correction(other.centre) * toVec(other.mean);
  EXPECT_LT(length(back - 0.5 * kWhite<D50>), 1e-12);
}

TEST(Light, AGreyThatIsKnownToBeBluishMakesNothingYellowish) {
  const Vec3 cast{1.3, 0.9, 0.6};
  const Xyz<D50> bluish = toXyz(Lab<D50>{50, 0.4, -3});
  Patch g = grey({100, 100}, 0.2, cast);
  const Vec3 seen = inverse(kBradford) * (Mat3::diagonal(cast) * (kBradford * toVec(bluish)));
  g.mean = {seen[0], seen[1], seen[2]};
  const Patch other = grey({500, 40}, 0.5, cast);
  const auto known = Light::fromGreys(std::span(&g, 1), bluish), taken_for_neutral = Light::fromGreys(std::span(&g, 1), bluish.Y);
  ASSERT_TRUE(known && taken_for_neutral);
  EXPECT_LT(length(known->correction(other.centre) * toVec(other.mean) - 0.5 * kWhite<D50>), 1e-12);
  const Vec3 wrong = taken_for_neutral->correction(other.centre) * toVec(other.mean);
  EXPECT_GT(toLab(Xyz<D50>{wrong[0], wrong[1], wrong[2]}).b, 2);
}

TEST(Light, TwoGreysFollowTheLightBetweenThem) {
  // Light falls off exponentially along x: linear in the logarithm, so that it is followed exactly.
  const auto lit = [](double x) { const double f = std::exp(-x / 800); return Vec3{f, f * std::exp(x / 4000), f}; };
  const std::vector<Patch> greys{grey({0, 10}, 0.2, lit(0)), grey({400, 20}, 0.2, lit(400))};
  const auto light = Light::fromGreys(greys, 0.2);
  ASSERT_TRUE(light);
  for (const double x : {0.0, 100.0, 250.0, 400.0}) {
    const Patch p = grey({x, 15}, 0.4, lit(x));
    EXPECT_LT(length(light->correction(p.centre) * toVec(p.mean) - 0.4 * kWhite<D50>), 2e-4) << x;
  }
}

TEST(Light, WeightsSumToOneAndAreHeldFarOutside) {
  const std::vector<Patch> greys{grey({0, 0}, 0.2, {1, 1, 1}), grey({100, 0}, 0.2, {1, 1, 1})};
  const auto light = Light::fromGreys(greys, 0.2);
  ASSERT_TRUE(light);
  for (const double x : {-500.0, -50.0, 0.0, 30.0, 100.0, 150.0, 900.0}) {
    const auto w = light->weights({x, 0});
    EXPECT_NEAR(w[0] + w[1], 1, 1e-12);
  }
  EXPECT_NEAR(light->weights({0, 0})[0], 1, 1e-12);
  EXPECT_NEAR(light->weights({900, 0})[1], 1.5, 1e-12);  // half of the span beyond, then held
  EXPECT_EQ(light->weights({900, 0}), light->weights({5000, 0}));
}

TEST(Light, ThreeGreysGiveAPlane) {
  const auto lit = [](Point p) { const double f = std::exp(-p.x / 900 + p.y / 1500); return Vec3{f, f, f}; };
  std::vector<Patch> greys;
  for (const Point at : {Point{0, 0}, Point{400, 0}, Point{0, 300}, Point{400, 300}}) greys.push_back(grey(at, 0.2, lit(at)));
  const auto light = Light::fromGreys(greys, 0.2);
  ASSERT_TRUE(light);
  for (const Point at : {Point{200, 150}, Point{50, 250}, Point{390, 20}}) {
    const Patch p = grey(at, 0.4, lit(at));
    EXPECT_LT(length(light->correction(at) * toVec(p.mean) - 0.4 * kWhite<D50>), 1e-9);
  }
}

TEST(Light, UselessGreysAreRefused) {
  Patch black = grey({0, 0}, 0.0005, {1, 1, 1}), burnt = grey({0, 0}, 0.9, {1, 1, 1}), masked = grey({0, 0}, 0.2, {1, 1, 1});
  burnt.clipped_top = 0.8;
  masked.masked = 0.95;
  for (const Patch& p : {black, burnt, masked}) {
    const auto light = Light::fromGreys(std::span(&p, 1), 0.2);
    ASSERT_FALSE(light);
    EXPECT_EQ(light.error().code, Code::GreyUnusable);
  }
}

TEST(XyzByLogGain, AgreesWithAFiniteGain) {
  const Vec3 xyz{0.3, 0.4, 0.2}, shift{1e-6, -2e-6, 3e-6};
  const Vec3 moved = inverse(kBradford) * (Mat3::diagonal({std::exp(shift[0]), std::exp(shift[1]), std::exp(shift[2])}) * (kBradford * xyz));
  EXPECT_LT(length(moved - xyz - xyzByLogGain(xyz) * shift), 1e-11);
}

/// Paper under a light that falls off along x.
LightMap paperMap(double level = 1) {
  std::vector<PaperSpot> spots;
  for (int y = 0; y < 400; y += 60)
    for (int x = 0; x < 600; x += 60) {
      const double f = level * std::exp(-x / 900.0);
      spots.push_back({{static_cast<double>(x), static_cast<double>(y)}, 0.83 * f * (kBradford * kWhite<D50>), 0.002});
    }
  return LightMap::fit(spots).value();
}

TEST(Light, PaperSaysHowTheLightLiesAndOneGreySetsTheLevel) {
  const auto lit = [](double x) { const double f = std::exp(-x / 900); return Vec3{f, f, f}; };
  const Patch g = grey({100, 100}, 0.2, lit(100));
  const auto light = Light::fromGreys(std::span(&g, 1), 0.2, paperMap(0.7));
  ASSERT_TRUE(light);
  for (const double x : {0.0, 250.0, 540.0}) {
    const Patch p = grey({x, 200}, 0.4, lit(x));
    EXPECT_LT(length(light->correction(p.centre) * toVec(p.mean) - 0.4 * kWhite<D50>), 1e-3) << x;
  }
  EXPECT_NEAR(light->slope({300, 200})[0], 1 / 900.0, 1e-5);
}

TEST(Light, PaperAloneIsAWhite) {
  const Light light = Light::fromPaper(paperMap(0.5), 0.83);
  const Patch p = grey({500, 100}, 0.4, {0.5 * std::exp(-500 / 900.0), 0.5 * std::exp(-500 / 900.0), 0.5 * std::exp(-500 / 900.0)});
  EXPECT_LT(length(light.correction(p.centre) * toVec(p.mean) - 0.4 * kWhite<D50>), 1e-3);
  EXPECT_TRUE(light.paperIsGrey());
}

TEST(Light, EvenedToAPlaceThatPlaceStays) {
  const Light light = Light::evenedTo(paperMap(), {300, 200});
  EXPECT_LT(apart(light.correction({300, 200}), Mat3::identity()), 1e-9);
  EXPECT_NEAR(light.correction({0, 200})(1, 1), std::exp(-300 / 900.0), 1e-3);
  EXPECT_FALSE(light.paperIsGrey());
}

TEST(Light, AChartKeepsTheLevelAndTheGreysTellOnlyThePlace) {
  const std::vector<Patch> greys{grey({0, 0}, 0.2, {1.1, 1.0, 0.8}), grey({100, 0}, 0.2, {0.99, 0.9, 0.72})};
  auto light = Light::fromGreys(greys, 0.2).value();
  light.keepLevel(false);
  EXPECT_LT(length(light.logGain(0) + light.logGain(1)), 1e-12);
  EXPECT_NEAR(light.logGain(1)[1] - light.logGain(0)[1], -std::log(0.9), 1e-9);
  auto bright = Light::fromGreys(greys, 0.2).value();
  bright.keepLevel(true);  // the greys' brightness, the chart's tint
  const Vec3 sum = bright.logGain(0) + bright.logGain(1);
  EXPECT_NEAR(sum[0], sum[1], 1e-12);
  EXPECT_NE(sum[0], 0);
}

LightSlope slopeOf(double along_x, double along_y, double sd) {
  LightSlope slope;
  slope.middle = {1000, 200};
  slope.per_pixel = {along_x, along_y};
  slope.sd = {sd, sd};
  return slope;
}

TEST(Light, TheChartsSlopeIsFollowedFromWhereTheLevelWasSet) {
  const LightSlope slope = slopeOf(1e-4, -2e-4, 1e-5);
  const Patch g = grey({600, 200}, 0.2, {1, 1, 1});
  struct Row {
    bool has_grey, by_grey;
    Point from;
  };
  for (const Row& row : {Row{true, true, {600, 200}}, Row{true, false, {1000, 200}}, Row{false, true, {1000, 200}}, Row{false, false, {1000, 200}}}) {
    Light light = row.has_grey ? Light::fromGreys(std::span(&g, 1), 0.2).value() : Light();
    light.follow(slope, row.by_grey);
    EXPECT_LT(apart(light.correction(row.from), Mat3::identity()), 1e-12);
    const Point there{row.from.x - 400, row.from.y + 300};
    const double brighter = std::exp(-400 * 1e-4 - 300 * 2e-4);  // of the light there
    EXPECT_LT(apart(light.correction(there), (1 / brighter) * Mat3::identity()), 1e-12);
    EXPECT_NEAR(*light.followedSd(there), std::hypot(400, 300) * 1e-5, 1e-12);
    EXPECT_NEAR(light.slope(there)[0], -1e-4, 1e-12);
    EXPECT_NEAR(light.slope(there)[1], 2e-4, 1e-12);
  }
}

TEST(Light, SeveralGreysKeepTheirOwnCourse) {
  const std::vector<Patch> greys{grey({0, 10}, 0.2, {1, 1, 1}), grey({400, 20}, 0.2, {0.9, 0.9, 0.9})};
  Light light = Light::fromGreys(greys, 0.2).value();
  const Mat3 before = light.correction({200, 100});
  light.follow(slopeOf(1e-3, 1e-3, 1e-5), true);
  EXPECT_EQ(apart(light.correction({200, 100}), before), 0);
  EXPECT_FALSE(light.followedSd({200, 100}));
}

}  // namespace
}  // namespace huewright
