#include <gtest/gtest.h>

#include <algorithm>

#include "photo/expect.hpp"

namespace huewright {
namespace {

using namespace fixtures;

TEST(Tiff, everyLayoutGivesTheSameColours) {
  const TempDir folder;
  const Size size{71, 53};
  const Picture narrow = pattern(size), wide = pattern(size, 65535);
  for (const int bits : {8, 16})
    for (const int tile : {0, 32})
      for (const int compression : {1, 5, 8, 32773})
        for (const bool separate : {false, true})
          for (const int more : {0, 1, 2, 3}) {
            TiffOptions options{.bits = bits, .tile = tile, .rows_per_strip = 10, .compression = compression, .separate = separate};
            options.predictor = more == 1 && (compression == 5 || compression == 8);
            options.alpha = more == 2;
            options.big_endian = more == 3;
            options.big_tiff = more == 3;
            const std::string what = std::to_string(bits) + " bits, tile " + std::to_string(tile) + ", compression " +
                                     std::to_string(compression) + (separate ? ", separate" : "") + ", more " + std::to_string(more);
            auto photo = openBytes(folder, "x.tif", tiff(bits == 8 ? narrow : wide, options));
            ASSERT_TRUE(photo) << what << " " << sentence(photo.error());
            EXPECT_EQ(photo->facts().format, "TIFF");
            EXPECT_EQ(photo->facts().bits, bits);
            const Picture& want = bits == 8 ? narrow : wide;
            expectPicture(readWhole(*photo), want, bits == 8 ? 255 : 65535, srgbProfile(), 5e-5, 97, what);
            expectPicture(read(*photo, {30, 9, 37, 12}), want, bits == 8 ? 255 : 65535, srgbProfile(), 5e-5, 41, what);
          }
}

TEST(Tiff, isUprightByItsOrientationTag) {
  const TempDir folder;
  const Picture picture = pattern({23, 14});
  for (int orientation = 1; orientation <= 8; ++orientation) {
    auto photo = openBytes(folder, "x.tif", tiff(picture, {.tile = 16, .orientation = orientation}));
    ASSERT_TRUE(photo);
    EXPECT_EQ(photo->facts().orientation, orientation);
    expectPicture(readWhole(*photo), upright(picture, orientation), 255, srgbProfile(), 5e-5, 1, std::to_string(orientation));
  }
}

TEST(Tiff, profilesAreObeyed) {
  const TempDir folder;
  const Picture picture = pattern({20, 20}, 65535);
  for (const Bytes& profile : {displayP3Profile(), swapProfile(), tableProfile()}) {
    auto photo = openBytes(folder, "x.tif", tiff(picture, {.bits = 16, .profile = profile}));
    ASSERT_TRUE(photo);
    EXPECT_TRUE(photo->facts().tagged);
    expectPicture(readWhole(*photo), picture, 65535, profile, 2e-6, 7, photo->facts().encoding);
  }
  auto tagged = openBytes(folder, "x.tif", tiff(picture, {.bits = 16, .make = "M", .software = "S"}));
  EXPECT_TRUE(tagged->facts().camera_data);
  EXPECT_EQ(tagged->facts().software, "S");
}

TEST(Tiff, refusals) {
  const TempDir folder;
  struct Row {
    const char* outcome;
    TiffOptions options;
  };
  const Row rows[] = {{"photo-cmyk", {.photometric = 5}},
                      {"photo-lab", {.photometric = 8}},
                      {"photo-one-channel", {.photometric = 1}},
                      {"photo-unsupported", {.bits = 16, .photometric = 32803}},
                      {"photo-unsupported", {.bits = 16, .photometric = 34892}},
                      {"photo-unsupported", {.floating = true}},
                      {"photo-unsupported", {.compression = 7}},
                      {"profile-unusable", {.profile = brokenProfile()}},
                      {"ok", {}}};
  const Picture picture = pattern({64, 64});
  for (const Row& row : rows) {
    const auto photo = openBytes(folder, "x.dng", tiff(picture, row.options));
    EXPECT_EQ(outcome(photo), row.outcome) << row.options.photometric;
    if (row.options.photometric > 1000) {
      EXPECT_TRUE(photo.error().detail.ends_with("x.dng\" is a kind of camera raw file that is not read here")) << photo.error().detail;
    }
  }
  Limits small;
  small.megapixels = 0.004;
  EXPECT_EQ(outcome(openBytes(folder, "x.tif", tiff(picture), small)), "photo-too-large");
}

TEST(Tiff, aProfileThatCannotBeReadIsNotPassedOver) {
  const TempDir folder;
  Bytes bytes = tiff(pattern({20, 20}), {.profile = srgbProfile()});
  // The tag's number in a folder entry (little-endian 34675); its type becomes one that the tag cannot have.
  const Bytes tag{0x73, 0x87, 7, 0};
  const auto entry = std::search(bytes.begin(), bytes.end(), tag.begin(), tag.end());
  ASSERT_NE(entry, bytes.end());
  entry[2] = 12;
  EXPECT_EQ(outcome(openBytes(folder, "x.tif", bytes)), "profile-unusable");
  EXPECT_EQ(outcome(openBytes(folder, "x.tif", bytes, {}, Encoding::Srgb)), "ok");
}

TEST(Tiff, everyCutIsSeen) {
  const TempDir folder;
  for (const int compression : {1, 5}) {
    const Bytes whole = tiff(pattern({30, 30}), {.compression = compression, .profile = srgbProfile()});
    for (std::size_t length = 8; length < whole.size(); length += 13) {
      const Bytes cut(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(length));
      EXPECT_EQ(outcomeOfReading(openBytes(folder, "x.tif", cut)), "photo-truncated") << length;
    }
  }
}

}  // namespace
}  // namespace huewright
