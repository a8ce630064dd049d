#include "sitting/frame_picture.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

Frame countedFrame(int width, int height) {
  Frame frame{.size = {width, height}, .rgb = {}, .number = 0, .seconds = 0};
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x)
      for (int k = 0; k < 3; ++k) frame.rgb.push_back(static_cast<std::uint8_t>(10 * y + 2 * x + 50 * k));
  return frame;
}

TEST(FramePicture, IsTheFrameItselfWhereItFits) {
  const PictureRef picture = framePicture(countedFrame(5, 3), 5);
  EXPECT_EQ(picture->size, (Size{5, 3}));
  EXPECT_EQ(picture->scale, 1);
  ASSERT_EQ(picture->rgba.size(), 60u);
  EXPECT_EQ((std::vector<std::uint8_t>(picture->rgba.begin() + 4 * 7, picture->rgba.begin() + 4 * 8)), (std::vector<std::uint8_t>{14, 64, 114, 255}));
}

TEST(FramePicture, AWiderOneIsMadeSmallerByMeans) {
  const PictureRef picture = framePicture(countedFrame(9, 5), 4);
  EXPECT_EQ(picture->scale, 1.0 / 3);
  EXPECT_EQ(picture->size, (Size{3, 1}));
  // The mean of rows 0 to 2 and columns 3 to 5: 10 * 1 + 2 * 4.
  EXPECT_EQ(picture->rgba[4], 18);
  EXPECT_EQ(picture->rgba[5], 68);
  EXPECT_EQ(picture->rgba[7], 255);
}

TEST(FramePicture, AFlatOneHasALineStill) { EXPECT_EQ(framePicture(countedFrame(20, 1), 5)->size, (Size{5, 1})); }

}  // namespace
}  // namespace huewright
