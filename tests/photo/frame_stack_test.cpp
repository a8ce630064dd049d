#include "photo/frame_stack.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <random>

#include "colour/rgb.hpp"
#include "photo/write.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

using FrameCodes = std::vector<std::uint8_t>;

/// 8 × 6 pixels; column and row can be told from the codes.
FrameCodes coded(int shift_x = 0, int shift_y = 0) {
  FrameCodes codes;
  for (int y = 0; y < 6; ++y)
    for (int x = 0; x < 8; ++x) {
      codes.push_back(static_cast<std::uint8_t>(20 + 25 * (x - shift_x)));
      codes.push_back(static_cast<std::uint8_t>(20 + 25 * (y - shift_y)));
      codes.push_back(100);
    }
  return codes;
}

Raster whole(const FrameStack& stack) {
  Photo photo = stack.photo();
  const Rect all{0, 0, stack.size().width, stack.size().height};
  return std::move(photo.pixels(std::span(&all, 1)).value().front());
}

TEST(FrameStack, OneFrameReadsAsItsFileDoes) {
  FrameStack stack({8, 6});
  stack.add(coded());
  const fixtures::TempDir folder;
  ASSERT_TRUE(writePng(folder.path() / "frame.png", {8, 6}, coded()));
  auto file = Photo::open(folder.path() / "frame.png");
  ASSERT_TRUE(file);
  const Rect part{2, 1, 5, 4};
  Photo live = stack.photo();
  const auto a = live.pixels(std::span(&part, 1)), b = file->pixels(std::span(&part, 1));
  ASSERT_TRUE(a && b);
  EXPECT_EQ(a->front().clip, b->front().clip);
  for (std::size_t i = 0; i < b->front().xyz.size(); ++i) EXPECT_NEAR(a->front().xyz[i], b->front().xyz[i], 2e-6) << i;
  EXPECT_EQ(live.preview(100)->rgb, file->preview(100)->rgb);
  EXPECT_EQ(live.facts().format, kFrameFormat);
  EXPECT_FALSE(live.facts().tagged);
  EXPECT_TRUE(live.traces().live);
}

TEST(FrameStack, AveragesLightAndNotCodes) {
  FrameStack stack({1, 1});
  stack.add(FrameCodes{0, 0, 0});
  stack.add(FrameCodes{255, 255, 255});
  EXPECT_NEAR(whole(stack).xyz[1], 0.5, 1e-6);
  FrameStack linear({1, 1}, Encoding::Linear);
  linear.add(FrameCodes{51, 51, 51});
  EXPECT_NEAR(whole(linear).xyz[1], 0.2, 1e-6);
  EXPECT_TRUE(linear.photo().facts().linear);
}

TEST(FrameStack, ShiftsAreTakenOut) {
  FrameStack still({8, 6}), moved({8, 6});
  still.add(coded());
  moved.add(coded(2, -1), 2, -1);
  const Raster a = whole(still), b = whole(moved);
  for (int y = 1; y < 6; ++y)  // row 0 lies outside the moved frame
    for (int x = 0; x < 6; ++x)
      for (std::size_t k = 0; k < 3; ++k) {
        const std::size_t i = 3 * static_cast<std::size_t>(8 * y + x) + k;
        EXPECT_NEAR(a.xyz[i], b.xyz[i], 1e-6) << x << "," << y;
      }
}

TEST(FrameStack, FarShiftsTakeTheEdge) {
  FrameStack stack({8, 6});
  stack.add(coded(), 100, 100);
  stack.add(coded(), -100, -100);
  EXPECT_GT(whole(stack).xyz[1], 0);  // nothing outside the frame was read (the sanitizers look)
}

TEST(FrameStack, NoiseFallsWithTheRootOfTheFrames) {
  std::mt19937 random(3);
  std::normal_distribution<double> noise(0, 4);
  FrameStack stack({64, 64});
  for (int f = 0; f < 16; ++f) {
    FrameCodes codes(3 * 64 * 64);
    for (auto& code : codes) code = static_cast<std::uint8_t>(std::lround(120 + noise(random)));
    stack.add(codes);
  }
  const Raster raster = whole(stack);
  double mean = 0, square = 0;
  for (std::size_t i = 1; i < raster.xyz.size(); i += 3) mean += static_cast<double>(raster.xyz[i]) / 4096;
  for (std::size_t i = 1; i < raster.xyz.size(); i += 3) square += std::pow(static_cast<double>(raster.xyz[i]) - mean, 2) / 4095;
  // One frame's luminance, by the slope of the curve at code 120 and the three channels' shares.
  const double slope = (srgbToLinear(121.0 / 255) - srgbToLinear(119.0 / 255)) / 2;
  const double one = 4 * slope * std::hypot(kSrgbToXyzD50(1, 0), kSrgbToXyzD50(1, 1), kSrgbToXyzD50(1, 2));
  EXPECT_NEAR(std::sqrt(square) / one, 0.25, 0.01);
  EXPECT_EQ(stack.frames(), 16);
}

TEST(FrameStack, OlderFramesFade) {
  FrameStack stack({1, 1});
  for (int f = 0; f < 8; ++f) stack.add(FrameCodes{0, 0, 0}, 0, 0, 8);
  EXPECT_EQ(stack.frames(), 8);
  stack.add(FrameCodes{255, 255, 255}, 0, 0, 8);
  EXPECT_NEAR(whole(stack).xyz[1], 1.0 / 5, 1e-6);  // eight halves and one
  EXPECT_NEAR(stack.frames(), 25.0 / 3, 1e-9);      // (8 ÷ 2 + 1)² ÷ (8 ÷ 4 + 1)
  for (int f = 0; f < 200; ++f) stack.add(FrameCodes{255, 255, 255});
  EXPECT_NEAR(whole(stack).xyz[1], 1, 0.01);  // nothing ran over
  EXPECT_LE(stack.frames(), 86);
  stack.add(FrameCodes{0, 0, 0}, 0, 0, 1);
  EXPECT_NEAR(whole(stack).xyz[1], 0, 1e-6);
  EXPECT_EQ(stack.frames(), 1);
}

TEST(FrameStack, ClippingIsJudgedOnTheAverage) {
  FrameStack stack({3, 1});
  stack.add(FrameCodes{255, 252, 200, 1, 3, 200, 254, 200, 0});
  EXPECT_EQ(whole(stack).clip, (std::vector<std::uint8_t>{0b011, 0b001000, 0b100001}));
  for (int f = 0; f < 3; ++f) stack.add(FrameCodes{240, 200, 200, 9, 9, 200, 240, 200, 9});
  EXPECT_EQ(whole(stack).clip, (std::vector<std::uint8_t>{0, 0, 0}));
}

TEST(FrameStack, AFrameOfAnotherLengthIsNotTaken) {
  FrameStack stack({2, 2});
  stack.add(FrameCodes(11, 200));
  EXPECT_EQ(stack.frames(), 0);
}

}  // namespace
}  // namespace huewright
