#include "scene/shake.hpp"

#include <cmath>
#include <gtest/gtest.h>

#include "support/live_frames.hpp"

namespace huewright {
namespace {

using fixtures::LiveScene;

struct ShakeCase {
  double dx, dy, turn;  // pixels of a scene of 1200, degrees
};

class ShakeOf : public testing::TestWithParam<ShakeCase> {};

TEST_P(ShakeOf, IsMeasuredAllOverThePicture) {
  LiveScene scene("on-the-mat.jpg");
  const ShakeCase c = GetParam();
  const ShakeMeter meter(scene.frame(), scene.size());
  const auto shake = meter.measure(scene.frame(2, c.dx, c.dy, c.turn));
  ASSERT_TRUE(shake);
  const double w = scene.size().width, h = scene.size().height, turn = c.turn * 0.017453292519943295;
  for (const Point p : {Point{0.2 * w, 0.2 * h}, Point{0.8 * w, 0.3 * h}, Point{0.5 * w, 0.8 * h}}) {
    const double x = p.x - 0.5 * w, y = p.y - 0.5 * h;
    const Point now = shake->moved(p);
    EXPECT_NEAR(now.x, p.x + c.dx + (std::cos(turn) - 1) * x - std::sin(turn) * y, 0.25);
    EXPECT_NEAR(now.y, p.y + c.dy + std::sin(turn) * x + (std::cos(turn) - 1) * y, 0.25);
  }
}

INSTANTIATE_TEST_SUITE_P(Shakes, ShakeOf,
                         testing::Values(ShakeCase{0, 0, 0}, ShakeCase{1, 0, 0}, ShakeCase{0.5, -0.5, 0}, ShakeCase{-7, 12, 0}, ShakeCase{40, 20, 0}, ShakeCase{-80, 30, 0}, ShakeCase{3, 2, 0.3},
                                         ShakeCase{0, 0, 1}, ShakeCase{-10, 5, -1.5}, ShakeCase{4, 4, 2}));

// Sides of which OpenCV's correlation makes half a pixel where there is no movement, and noise like that of a cheap camera.
TEST(Shake, NothingIsMeasuredWhereNothingMovesWhateverTheSides) {
  for (const int side : {1400, 1351, 1203, 960, 721}) {
    LiveScene scene("on-the-mat.jpg", side);
    const ShakeMeter meter(scene.frame(4), scene.size());
    for (int i = 0; i < 3; ++i) {
      const auto shake = meter.measure(scene.frame(4));
      ASSERT_TRUE(shake) << side;
      EXPECT_LT(std::hypot(shake->dx, shake->dy) + shake->beyondShift(), 0.15) << side;
    }
  }
}

TEST(Shake, AnotherLightIsNoMovement) {
  LiveScene scene("on-the-mat.jpg");
  const auto shake = ShakeMeter(scene.frame(), scene.size()).measure(scene.frame(2, 0, 0, 0, 0.7));
  ASSERT_TRUE(shake);
  EXPECT_LT(std::hypot(shake->dx, shake->dy) + shake->beyondShift(), 0.25);
}

TEST(Shake, AnotherSceneIsNotKnownAgain) {
  LiveScene scene("on-the-mat.jpg");
  const ShakeMeter meter(scene.frame(), scene.size());
  EXPECT_FALSE(meter.measure(std::vector<std::uint8_t>(scene.codes().size(), 128)));
  LiveScene noise("on-the-mat.jpg", 4000, 9);
  std::vector<std::uint8_t> grain(scene.codes().size(), 128);
  std::mt19937 random(2);
  for (auto& code : grain) code = static_cast<std::uint8_t>(random() % 256);
  EXPECT_FALSE(meter.measure(grain));
  EXPECT_FALSE(meter.measure(std::vector<std::uint8_t>(30, 128)));
  std::vector<std::uint8_t> upside(scene.codes().rbegin(), scene.codes().rend());
  EXPECT_FALSE(meter.measure(upside));
}

}  // namespace
}  // namespace huewright
