#include "photo/shrink.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "colour/rgb.hpp"
#include "photo/expect.hpp"

namespace huewright {
namespace {

using namespace fixtures;

/// What averaging all light that falls on a preview pixel gives, computed pixel by pixel in double.
std::array<int, 3> averaged(const Picture& picture, double scale, int px, int py) {
  std::array<double, 3> sum{};
  double weight = 0;
  const int left = std::max(0, static_cast<int>(px / scale) - 1),
            right = std::min(picture.size.width, static_cast<int>((px + 1) / scale) + 2);
  const int top = std::max(0, static_cast<int>(py / scale) - 1),
            bottom = std::min(picture.size.height, static_cast<int>((py + 1) / scale) + 2);
  for (int y = top; y < bottom; ++y)
    for (int x = left; x < right; ++x) {
      const double across = std::min((x + 1) * scale, px + 1.0) - std::max(x * scale, double(px));
      const double down = std::min((y + 1) * scale, py + 1.0) - std::max(y * scale, double(py));
      if (across <= 0 || down <= 0) continue;
      weight += across * down;
      for (std::size_t c = 0; c < 3; ++c) sum[c] += across * down * srgbToLinear(picture.at(x, y)[c] / 255.0);
    }
  std::array<int, 3> codes{};
  for (std::size_t c = 0; c < 3; ++c) codes[c] = static_cast<int>(std::lround(255 * srgbFromLinear(sum[c] / weight)));
  return codes;
}

void expectAveraged(const Preview& preview, const Picture& picture, int tolerance, const std::string& what) {
  ASSERT_EQ(preview.rgb.size(), 3 * std::size_t(preview.size.width) * std::size_t(preview.size.height));
  for (int y = 0; y < preview.size.height; ++y)
    for (int x = 0; x < preview.size.width; ++x) {
      const auto want = averaged(picture, preview.scale, x, y);
      for (std::size_t c = 0; c < 3; ++c)
        ASSERT_NEAR(preview.rgb[3 * std::size_t(y * preview.size.width + x) + c], want[c], tolerance) << what << " at " << x << "," << y;
    }
}

TEST(Shrink, neverEnlarges) {
  EXPECT_EQ(Shrinker::scaleFor({100, 50}, 1000), 1.0);
  EXPECT_EQ(Shrinker::scaleFor({100, 50}, 100), 1.0);
  EXPECT_EQ(Shrinker::scaleFor({50, 100}, 25), 0.25);
  EXPECT_EQ(Shrinker::scaleFor({50, 100}, -3), 0.01);
}

TEST(Shrink, averagesAreasOfLight) {
  const TempDir folder;
  const Picture picture = pattern({97, 61});
  for (const int side : {97, 96, 60, 33, 10, 3, 1})
    for (const auto& [name, bytes] : {std::pair{"x.png", png(picture)}, {"x.tif", tiff(picture, {.tile = 16})}}) {
      auto photo = openBytes(folder, name, bytes);
      ASSERT_TRUE(photo);
      const auto preview = photo->preview(side);
      ASSERT_TRUE(preview);
      EXPECT_EQ(preview->size.width, side);
      EXPECT_NEAR(preview->size.height, std::max(1.0, 61 * preview->scale), 0.5);
      EXPECT_DOUBLE_EQ(preview->scale, side / 97.0);
      expectAveraged(*preview, picture, 1, std::string(name) + " " + std::to_string(side));
    }
}

TEST(Shrink, atFullSizeItIsThePictureItself) {
  const TempDir folder;
  const Picture picture = pattern({40, 30});
  auto photo = openBytes(folder, "x.png", png(picture));
  const auto preview = photo->preview(4000);
  ASSERT_TRUE(preview);
  EXPECT_EQ(preview->size, picture.size);
  for (std::size_t i = 0; i < picture.rgb.size(); ++i) ASSERT_EQ(preview->rgb[i], picture.rgb[i]);
}

TEST(Shrink, isUpright) {
  const TempDir folder;
  // Sides that do not divide evenly: the odd rest must fall at the right and lower edges of the upright picture.
  for (const Size size : {Size{41, 29}, Size{29, 43}})
    for (int orientation = 1; orientation <= 8; ++orientation) {
      const Picture picture = pattern(size);
      auto photo = openBytes(folder, "x.tif", tiff(picture, {.orientation = orientation}));
      for (const int side : {30, 20, 13}) {
        const auto preview = photo->preview(side);
        ASSERT_TRUE(preview);
        expectAveraged(*preview, upright(picture, orientation), 1, std::to_string(orientation));
      }
    }
}

TEST(Shrink, jpegIsShrunkByItsDecoderFirst) {
  // A smooth picture: the decoder's own shrinking averages codes, not light, which shows at hard edges only.
  const TempDir folder;
  Picture picture = flat({331, 203}, {0, 0, 0});
  for (int y = 0; y < 203; ++y)
    for (int x = 0; x < 331; ++x) {
      picture.at(x, y)[0] = static_cast<std::uint16_t>(40 + x / 2);
      picture.at(x, y)[1] = static_cast<std::uint16_t>(220 - y / 2);
      picture.at(x, y)[2] = static_cast<std::uint16_t>(60 + (x + y) / 4);
    }
  for (const int side : {331, 200, 160, 90, 41, 17}) {
    JpegOptions options;
    options.quality = 98;
    options.exif = exif({.orientation = 6});
    auto photo = openBytes(folder, "x.jpg", jpeg(picture, options));
    const auto preview = photo->preview(side);
    ASSERT_TRUE(preview);
    EXPECT_EQ(preview->size.height, side);
    expectAveraged(*preview, upright(picture, 6), 4, std::to_string(side));
  }
}

}  // namespace
}  // namespace huewright
