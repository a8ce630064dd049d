#include "sitting/work.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

const std::filesystem::path kWorkSamples = HUEWRIGHT_SOURCE_DIR "/sample-images";

TEST(SittingWork, APreviewKeepsTheShapeAndAFullPictureEveryPixel) {
  const auto opened = openForShow(kWorkSamples / "there.jpg", {}, Encoding::Auto);
  ASSERT_TRUE(opened);
  EXPECT_EQ(opened->size, (Size{960, 640}));
  const auto full = everyPixel(kWorkSamples / "there.jpg", {}, Encoding::Auto);
  ASSERT_TRUE(full);
  EXPECT_EQ((*full)->size, opened->size);
  EXPECT_EQ((*full)->rgba.size(), 960u * 640u * 4u);
  EXPECT_EQ((*full)->rgba[3], 255);
}

TEST(SittingWork, FilesThatCannotBeReadAreSaid) {
  EXPECT_FALSE(openForShow("/no/such.jpg", {}, Encoding::Auto));
  EXPECT_FALSE(everyPixel("/no/such.jpg", {}, Encoding::Auto));
  Pointer pointer;
  EXPECT_FALSE(pointer.look(1, "/no/such.jpg", {1, 1}, nullptr, {}, Encoding::Auto));
}

TEST(SittingWork, ThePointerSeesThePhotoAlone) {
  Pointer pointer;
  const auto seen = pointer.look(4, kWorkSamples / "there.jpg", {300.7, 200.2}, nullptr, {}, Encoding::Auto);
  ASSERT_TRUE(seen);
  EXPECT_EQ(seen->photo, 4);
  EXPECT_EQ(seen->at, (Point{300, 200}));
  EXPECT_EQ(seen->lines.size(), 3u);  // nothing was judged, so nothing is corrected
  EXPECT_EQ(seen->lines[0], "300, 200");
  EXPECT_EQ(seen->around->size.width, seen->around->size.height);
}

TEST(SittingWork, TintsThatCannotBeReadAreTheSeriesTrouble) {
  Series series;
  const SeriesShown shown = seriesForShow(series, "/no/tints.json", {});
  EXPECT_NE(shown.trouble, "");
  EXPECT_FALSE(shown.advice);
}

}  // namespace
}  // namespace huewright
