#include "scene/edge_corners.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

/// A dark, hollow square (light inside a border of a sixth of its side), turned by so many degrees: each pixel is the mean of 64 points.
std::vector<std::uint8_t> square(Size size, Point middle, double side, double degrees, double blur) {
  constexpr int kFiner = 8;
  const double c = std::cos(degrees * M_PI / 180), s = std::sin(degrees * M_PI / 180);
  cv::Mat light(size.height, size.width, CV_32F, cv::Scalar(0));
  for (int y = 0; y < size.height * kFiner; ++y)
    for (int x = 0; x < size.width * kFiner; ++x) {
      const double dx = (x + 0.5) / kFiner - middle.x, dy = (y + 0.5) / kFiner - middle.y;
      const double off = std::max(std::abs(c * dx + s * dy), std::abs(c * dy - s * dx));
      light.at<float>(y / kFiner, x / kFiner) += (off < side / 2 && off > side / 3 ? 0.03F : 0.8F) / (kFiner * kFiner);
    }
  if (blur > 0) {
    cv::Mat blurred;
    cv::GaussianBlur(light, blurred, {}, blur);
    light = blurred;
  }
  std::vector<std::uint8_t> levels;
  for (int y = 0; y < light.rows; ++y)
    for (int x = 0; x < light.cols; ++x) levels.push_back(static_cast<std::uint8_t>(std::lround(255 * srgbFromLinear(static_cast<double>(light.at<float>(y, x))))));
  return levels;
}

Quad turnedSquare(Point middle, double side, double degrees) {
  Quad quad;
  const double c = std::cos(degrees * M_PI / 180), s = std::sin(degrees * M_PI / 180), h = side / 2;
  const std::array<Point, 4> upright{{{-h, -h}, {h, -h}, {h, h}, {-h, h}}};
  for (std::size_t i = 0; i < 4; ++i) quad.corners[i] = {middle.x + c * upright[i].x - s * upright[i].y, middle.y + s * upright[i].x + c * upright[i].y};
  return quad;
}

// 0.15 pixels: sharp edges along the pixels' rows, and a blur of 1.5 on a border under 6 pixels wide, come to that; all else stays below 0.1.
TEST(CornersByEdges, AreRightUnderBlurAndInAnyTurn) {
  const Point middle{49.3, 50.8};
  for (const double side : {34.0, 55.0})
    for (const double degrees : {0.0, 3.0, 31.0, 45.0})
      for (const double blur : {0.0, 0.8, 1.5}) {
        const auto levels = square({100, 100}, middle, side, degrees, blur);
        const Quad truth = turnedSquare(middle, side, degrees);
        const auto found = cornersByEdges({{100, 100}, levels}, inset(truth, 1.6 / side), side / 6);
        ASSERT_TRUE(found) << side << " " << degrees << " " << blur;
        for (std::size_t i = 0; i < 4; ++i)
          EXPECT_LT(std::hypot(found->corners[i].x - truth.corners[i].x, found->corners[i].y - truth.corners[i].y), 0.15) << side << " " << degrees << " " << blur;
      }
}

TEST(CornersByEdges, TheOtherWayRoundTheyStayInTheirPlaces) {
  const Point middle{50, 50};
  const auto levels = square({100, 100}, middle, 50, 10, 0.8);
  Quad truth = turnedSquare(middle, 50, 10);
  std::swap(truth.corners[1], truth.corners[3]);
  const auto found = cornersByEdges({{100, 100}, levels}, truth, 8);
  ASSERT_TRUE(found);
  for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(found->corners[i].x, truth.corners[i].x, 0.12);
}

TEST(CornersByEdges, NoEdgeGivesNone) {
  const std::vector<std::uint8_t> flat(10000, 120);
  EXPECT_FALSE(cornersByEdges({{100, 100}, flat}, turnedSquare({50, 50}, 40, 5), 7));
  const auto levels = square({100, 100}, {50, 50}, 40, 5, 0.5);
  EXPECT_FALSE(cornersByEdges({{100, 100}, levels}, turnedSquare({50, 50}, 4, 5), 1));
  EXPECT_FALSE(cornersByEdges({{100, 100}, levels}, turnedSquare({50, 50}, 60, 5), 6));  // 10 pixels off
}

}  // namespace
}  // namespace huewright
