#include <gtest/gtest.h>

#include <cmath>

#include "colour/rgb.hpp"
#include "photo/expect.hpp"

namespace huewright {
namespace {

using namespace fixtures;

TEST(Png, everyLayoutGivesTheSameColours) {
  const TempDir folder;
  const Picture narrow = pattern({53, 37}), wide = pattern({53, 37}, 65535);
  struct Row {
    const char* name;
    PngOptions options;
  };
  const Row rows[] = {{"8 bits", {}},
                      {"8 bits, alpha", {.alpha = true}},
                      {"8 bits, interlaced", {.interlaced = true}},
                      {"16 bits", {.bits = 16}},
                      {"16 bits, alpha, interlaced", {.bits = 16, .alpha = true, .interlaced = true}}};
  for (const Row& row : rows) {
    const int most = row.options.bits == 16 ? 65535 : 255;
    auto photo = openBytes(folder, "x.png", png(most == 255 ? narrow : wide, row.options));
    ASSERT_TRUE(photo) << row.name;
    EXPECT_EQ(photo->facts().format, "PNG");
    EXPECT_EQ(photo->facts().bits, row.options.bits);
    EXPECT_FALSE(photo->facts().tagged);
    EXPECT_FALSE(photo->facts().jpeg_quality);
    expectPicture(readWhole(*photo), most == 255 ? narrow : wide, most, srgbProfile(), 5e-5, 5, row.name);
    expectPicture(read(*photo, {11, 20, 30, 3}), most == 255 ? narrow : wide, most, srgbProfile(), 5e-5, 1, row.name);
  }
}

TEST(Png, palettesAreSpreadOut) {
  const TempDir folder;
  Picture picture = flat({20, 10}, {200, 30, 40});
  for (int x = 0; x < 10; ++x) picture.at(x, 3)[1] = 220;
  auto photo = openBytes(folder, "x.png", png(picture, {.palette = true}));
  ASSERT_TRUE(photo);
  expectPicture(readWhole(*photo), picture, 255, srgbProfile(), 5e-5, 1, "palette");
  EXPECT_EQ(outcome(openBytes(folder, "x.png", png(flat({9, 9}, {70, 70, 70}), {.palette = true}))), "photo-one-channel");
}

TEST(Png, profilesNamesAndHintsAreObeyed) {
  const TempDir folder;
  const Picture picture = pattern({20, 20}, 65535);
  for (const Bytes& profile : {displayP3Profile(), proPhotoProfile(), swapProfile(), tableProfile(), linearSrgbProfile()}) {
    auto photo = openBytes(folder, "x.png", png(picture, {.bits = 16, .profile = profile}));
    ASSERT_TRUE(photo);
    EXPECT_TRUE(photo->facts().tagged);
    expectPicture(readWhole(*photo), picture, 65535, profile, 2e-6, 7, photo->facts().encoding);
  }
  auto linear = openBytes(folder, "x.png", png(picture, {.bits = 16, .gamma = 1.0}));
  ASSERT_TRUE(linear);
  EXPECT_TRUE(linear->facts().linear);
  EXPECT_TRUE(linear->facts().tagged);
  expectPicture(readWhole(*linear), picture, 65535, linearSrgbProfile(), 5e-5, 7, "gAMA");
  auto srgb = openBytes(folder, "x.png", png(picture, {.bits = 16, .srgb = true}));
  EXPECT_TRUE(srgb->facts().tagged);
  EXPECT_EQ(srgb->facts().encoding, "sRGB");
}

TEST(Png, isUprightByItsExifChunk) {
  const TempDir folder;
  const Picture picture = pattern({23, 14});
  for (int orientation = 1; orientation <= 8; ++orientation) {
    auto photo = openBytes(folder, "x.png", png(picture, {.exif = exif({.orientation = orientation, .make = "M"})}));
    ASSERT_TRUE(photo);
    EXPECT_TRUE(photo->facts().camera_data);
    expectPicture(readWhole(*photo), upright(picture, orientation), 255, srgbProfile(), 5e-5, 1, std::to_string(orientation));
  }
}

TEST(Png, refusals) {
  const TempDir folder;
  EXPECT_EQ(outcome(openBytes(folder, "x", png(pattern({9, 9}), {.grey = true}))), "photo-one-channel");
  EXPECT_EQ(outcome(openBytes(folder, "x", png(pattern({9, 9}), {.alpha = true, .grey = true}))), "photo-one-channel");
  const Bytes broken = png(pattern({9, 9}), {.profile = brokenProfile()});
  EXPECT_EQ(outcome(openBytes(folder, "x", broken)), "profile-unusable");
  EXPECT_EQ(outcome(openBytes(folder, "x", broken, {}, Encoding::Srgb)), "ok");
  Limits small;
  small.megapixels = 0.00005;
  EXPECT_EQ(outcome(openBytes(folder, "x", png(pattern({9, 9})), small)), "photo-too-large");
}

TEST(Png, damagedPictureDataIsNeverHandedOut) {
  const TempDir folder;
  for (const bool interlaced : {false, true}) {
    const Bytes whole = png(pattern({40, 40}), {.interlaced = interlaced});
    for (std::size_t at = 45; at + 16 < whole.size(); at += 37) {
      Bytes damaged = whole;
      damaged[at] ^= 0x04;
      EXPECT_EQ(outcomeOfReading(openBytes(folder, "x.png", damaged)), "photo-corrupt") << at;
    }
  }
}

}  // namespace
}  // namespace huewright
