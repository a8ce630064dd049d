#include "photo/code_watch.hpp"

#include <gtest/gtest.h>

#include <functional>

#include "support/textured.hpp"

namespace huewright {
namespace {

using namespace fixtures;

CodeTraces watched(const Picture& picture, int first = 0, int channels = 3) {
  CodeWatch watch(picture.size);
  std::vector<std::uint8_t> row(std::size_t(channels) * std::size_t(picture.size.width), 255);
  for (int y = first; y < picture.size.height; ++y) {
    for (int x = 0; x < picture.size.width; ++x)
      for (int c = 0; c < 3; ++c) row[std::size_t(x * channels + c)] = static_cast<std::uint8_t>(picture.at(x, y)[c]);
    watch.take({y, 0, picture.size.width, Sample::Code8, channels, row.data()});
  }
  return watch.result();
}

Picture changed(Picture picture, const std::function<double(double)>& curve) {
  for (auto& code : picture.rgb) code = static_cast<std::uint16_t>(std::lround(std::clamp(curve(code), 0.0, 255.0)));
  return picture;
}

const Picture& photo() {
  static const Picture picture = textured({640, 480});
  return picture;
}

TEST(CodeWatch, anUntouchedPhotoShowsNothing) {
  for (const int channels : {3, 4}) {
    const CodeTraces traces = watched(photo(), 0, channels);
    EXPECT_FALSE(traces.gaps);
    EXPECT_FALSE(traces.block_grid);
    EXPECT_EQ(traces.bar_above, 0);
    EXPECT_EQ(traces.bar_below, 0);
  }
}

TEST(CodeWatch, stretchedLevelsLeaveGaps) {
  EXPECT_TRUE(watched(changed(photo(), [](double c) { return (c - 20) * 1.15; })).gaps);
  EXPECT_TRUE(watched(changed(photo(), [](double c) { return (c - 40) * 1.4; })).gaps);
  EXPECT_TRUE(watched(changed(photo(), [](double c) { return 4 * std::floor(c / 4); })).gaps) << "posterised";
  EXPECT_FALSE(watched(changed(photo(), [](double c) { return 0.8 * c + 10; })).gaps) << "squeezed levels fall together and leave none";
  EXPECT_FALSE(watched(flat({640, 480}, {80, 90, 100})).gaps);
}

TEST(CodeWatch, aFormerJpegShowsItsGrid) {
  for (const int quality : {50, 65, 80}) EXPECT_TRUE(watched(decodeJpeg(jpeg(photo(), {.quality = quality}))).block_grid) << quality;
  // Cropped off its grid too.
  const Picture decoded = decodeJpeg(jpeg(photo(), {.quality = 70}));
  Picture part = flat({600, 440}, {0, 0, 0});
  for (int y = 0; y < 440; ++y) std::copy_n(decoded.at(13, y + 5), 3 * 600, part.at(0, y));
  EXPECT_TRUE(watched(part).block_grid);
}

TEST(CodeWatch, stripesOneWayAreNoGrid) {
  Picture striped = photo();
  for (int y = 0; y < striped.size.height; ++y)
    for (int x = 0; x < striped.size.width; x += 8)
      for (int c = 0; c < 3; ++c) striped.at(x, y)[c] = static_cast<std::uint16_t>(std::min(255, striped.at(x, y)[c] + 5));
  EXPECT_FALSE(watched(striped).block_grid);
}

TEST(CodeWatch, aPatternOfTwoIsNoGrid) {
  Picture filtered = photo();  // as a sensor's filters leave it
  for (int y = 0; y < filtered.size.height; ++y)
    for (int x = y % 2; x < filtered.size.width; x += 2) filtered.at(x, y)[1] = static_cast<std::uint16_t>(std::min(255, filtered.at(x, y)[1] + 4));
  EXPECT_FALSE(watched(filtered).block_grid);
}

TEST(CodeWatch, countsBarsOfOneColour) {
  Picture picture = photo();
  for (int y = 0; y < 30; ++y) std::fill_n(picture.at(0, y), 3 * 640, 0);
  for (int y = 480 - 12; y < 480; ++y) std::fill_n(picture.at(0, y), 3 * 640, 240);
  EXPECT_EQ(watched(picture).bar_above, 30);
  EXPECT_EQ(watched(picture).bar_below, 12);
  EXPECT_EQ(watched(picture, 5).bar_above, 0) << "not all rows were seen";
  EXPECT_EQ(watched(flat({64, 64}, {9, 9, 9})).bar_above, 0) << "a picture of one colour has no bars";
  std::fill_n(picture.at(0, 10), 3 * 640, 50);  // another colour ends the bar
  EXPECT_EQ(watched(picture).bar_above, 10);
}

TEST(CodeWatch, passesByWhatItCannotRead) {
  CodeWatch watch({16, 16});
  const std::vector<std::uint16_t> wide(48, 7);
  const std::vector<float> light(48, 0.5F);
  watch.take({0, 0, 16, Sample::Code16, 3, wide.data()});
  watch.take({0, 0, 16, Sample::Xyz, 3, light.data()});
  watch.take({0, 8, 8, Sample::Code8, 3, wide.data()});
  EXPECT_FALSE(watch.result().gaps);
}

}  // namespace
}  // namespace huewright
