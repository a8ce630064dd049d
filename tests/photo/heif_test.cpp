#include <gtest/gtest.h>

#include <algorithm>

#include "photo/expect.hpp"

namespace huewright {
namespace {

using namespace fixtures;

TEST(Heif, coloursComeOutAsTheyWentIn) {
  const TempDir folder;
  struct Row {
    bool avif;
    int bits;
    double tolerance;
  };
  // HEIC is exact; AVIF is off by some codes where the picture has sharp edges.
  for (const auto& [avif, bits, tolerance] : {Row{false, 8, 5e-5}, Row{false, 10, 5e-5}, Row{true, 8, 0.05}}) {
      const int most = (1 << bits) - 1;
      const Picture picture = pattern({64, 48}, most);
      auto photo =
          openBytes(folder, "x.heic", heif(picture, {.avif = avif, .bits = bits, .lossless = true, .code_points = std::array{1, 13, 0}}));
      ASSERT_TRUE(photo) << sentence(photo.error());
      EXPECT_EQ(photo->facts().format, avif ? "AVIF" : "HEIF");
      EXPECT_EQ(photo->facts().bits, bits);
      EXPECT_TRUE(photo->facts().tagged);
      EXPECT_EQ(photo->facts().encoding, "sRGB");
      expectPicture(readWhole(*photo), picture, most, srgbProfile(), tolerance, 7, avif ? "avif" : "heic");
      expectPicture(read(*photo, {10, 11, 12, 13}), picture, most, srgbProfile(), tolerance, 3, avif ? "avif" : "heic");
    }
}

TEST(Heif, lossyFlatColourIsCloseThroughTheDecoder) {
  const TempDir folder;
  // YCbCr rounding costs up to about two codes of 255.
  for (const bool avif : {false, true}) {
    const Picture picture = flat({64, 64}, {180, 90, 60});
    auto photo = openBytes(folder, "x.heic", heif(picture, {.avif = avif}));
    ASSERT_TRUE(photo);
    EXPECT_FALSE(photo->facts().jpeg_quality);
    expectNear(xyzAt(read(*photo, {32, 32, 1, 1}), 32, 32), engineXyz(srgbProfile(), 180 / 255.0, 90 / 255.0, 60 / 255.0), 0.008, "flat");
  }
}

TEST(Heif, profilesAndCodePointsAreObeyed) {
  const TempDir folder;
  const Picture picture = flat({64, 64}, {180, 90, 60});
  struct Row {
    const char* encoding;
    HeifOptions options;
    Bytes meaning;
  };
  const Row rows[] = {{"Display P3, made for a test", {.profile = displayP3Profile()}, displayP3Profile()},
                      {"channels swapped, made for a test", {.avif = true, .profile = swapProfile()}, swapProfile()},
                      {"Display P3", {.code_points = std::array{12, 13, 6}}, displayP3Profile()},
                      {"sRGB", {.avif = true, .code_points = std::array{1, 1, 1}}, srgbProfile()}};
  for (const Row& row : rows) {
    auto photo = openBytes(folder, "x.heic", heif(picture, row.options));
    ASSERT_TRUE(photo) << row.encoding;
    EXPECT_EQ(photo->facts().encoding, row.encoding);
    EXPECT_TRUE(photo->facts().tagged);
    expectNear(xyzAt(read(*photo, {32, 32, 1, 1}), 32, 32), engineXyz(row.meaning, 180 / 255.0, 90 / 255.0, 60 / 255.0), 0.012,
               row.encoding);
  }
}

TEST(Heif, exifTellsOfTheCameraButTurnsNothing) {
  const TempDir folder;
  const Picture picture = pattern({64, 48});
  HeifOptions options{.lossless = true, .code_points = std::array{1, 13, 0}};
  options.exif = exif({.orientation = 6, .make = "Maker", .software = "Firmware"});
  for (const int orientation : {1, 3, 6, 8}) {
    options.orientation = orientation;
    auto photo = openBytes(folder, "x.heic", heif(picture, options));
    ASSERT_TRUE(photo);
    EXPECT_TRUE(photo->facts().camera_data);
    EXPECT_EQ(photo->facts().software, "Firmware");
    const Picture want = upright(picture, orientation);
    ASSERT_EQ(photo->size(), want.size) << orientation;
    expectPicture(readWhole(*photo), want, 255, srgbProfile(), 5e-5, 7, std::to_string(orientation));
  }
}

TEST(Heif, refusals) {
  const TempDir folder;
  EXPECT_EQ(outcome(openBytes(folder, "x", heif(pattern({64, 64}), {.grey = true}))), "photo-one-channel");
  const Picture picture = pattern({64, 64});
  EXPECT_EQ(outcome(openBytes(folder, "x", heif(picture, {.code_points = std::array{9, 16, 9}}))), "photo-unsupported") << "PQ";
  EXPECT_EQ(outcome(openBytes(folder, "x", heif(picture, {.avif = true, .code_points = std::array{9, 18, 9}}))), "photo-unsupported")
      << "HLG";
  EXPECT_EQ(outcome(openBytes(folder, "x", heif(picture, {.profile = brokenProfile()}))), "profile-unusable");
  Limits small;
  small.megapixels = 0.001;
  EXPECT_EQ(outcome(openBytes(folder, "x", heif(picture), small)), "photo-too-large");
}

TEST(Heif, everyCutIsSeen) {
  const TempDir folder;
  for (const bool avif : {false, true}) {
    const Bytes whole = heif(pattern({64, 64}), {.avif = avif});
    for (std::size_t length = 40; length < whole.size(); length += 61) {
      const Bytes cut(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(length));
      EXPECT_NE(outcomeOfReading(openBytes(folder, "x", cut)), "ok") << length;
    }
  }
}

TEST(Heif, aTailOfZerosIsNeverHandedOut) {
  const TempDir folder;
  for (const bool avif : {false, true}) {
    const Bytes whole = heif(pattern({256, 256}), {.avif = avif});
    for (const double keep : {0.3, 0.5, 0.7, 0.9}) {
      Bytes damaged = whole;
      std::fill(damaged.begin() + static_cast<std::ptrdiff_t>(keep * double(whole.size())), damaged.end(), std::uint8_t{0});
      EXPECT_NE(outcomeOfReading(openBytes(folder, "x", damaged)), "ok") << (avif ? "avif " : "heic ") << keep;
    }
  }
}

}  // namespace
}  // namespace huewright
