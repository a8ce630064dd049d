#include "scene/homography.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <vector>

namespace huewright {
namespace {

constexpr Mat3 kTilted{{{{3.1, -0.8, 210}, {0.9, 2.7, 95}, {4e-4, -7e-4, 1}}}};

std::vector<Point> pointGrid() {
  std::vector<Point> points;
  for (double y : {0.0, 60.0, 210.0})
    for (double x : {0.0, 20.0, 150.0, 297.0}) points.push_back({x, y});
  return points;
}

std::vector<Point> throughAll(const Mat3& h, const std::vector<Point>& points) {
  std::vector<Point> out;
  for (const Point& p : points) out.push_back(mapped(h, p));
  return out;
}

TEST(Homography, ExactPointsGiveItBack) {
  const auto fit = fitHomography(pointGrid(), throughAll(kTilted, pointGrid()));
  ASSERT_TRUE(fit);
  for (const Point& p : pointGrid()) {
    EXPECT_NEAR(mapped(fit->matrix, p).x, mapped(kTilted, p).x, 1e-3);  // points are taken in single precision
    EXPECT_NEAR(mapped(fit->matrix, p).y, mapped(kTilted, p).y, 1e-3);
  }
  EXPECT_LT(fit->sd, 1e-3);
}

// Every other point off by 0.5 to the right, the rest by 0.5 to the left: a pattern that hardly any homography follows.
TEST(Homography, TheSpreadIsThatOfOneCoordinate) {
  auto to = throughAll(kTilted, pointGrid());
  for (std::size_t i = 0; i < to.size(); ++i) to[i].x += i % 2 == 0 ? 0.5 : -0.5;
  const auto fit = fitHomography(pointGrid(), to);
  ASSERT_TRUE(fit);
  EXPECT_GT(fit->sd, 0.3);
  EXPECT_LT(fit->sd, 0.5);
}

TEST(Homography, TooFewOrUnpairedPointsGiveNone) {
  const std::vector<Point> three{{0, 0}, {1, 0}, {0, 1}};
  EXPECT_FALSE(fitHomography(three, three));
  EXPECT_FALSE(fitHomography(pointGrid(), three));
}

TEST(Homography, TheAreaScaleTellsAMirrorAndTheHorizon) {
  EXPECT_GT(areaScale(kTilted, {100, 100}), 0);
  EXPECT_NEAR(areaScale(Mat3::diagonal({2, 3, 1}), {5, 5}), 6, 1e-12);
  EXPECT_LT(areaScale(Mat3::diagonal({-2, 3, 1}), {5, 5}), 0);
  EXPECT_LT(areaScale(kTilted, {0, 2000}), 0);  // w = 1 − 1.4 there
}

}  // namespace
}  // namespace huewright
