#include <gtest/gtest.h>

#include <algorithm>

#include "photo/expect.hpp"

namespace huewright {
namespace {

using namespace fixtures;

/// The part of a raster that another rectangle asks for.
std::vector<float> part(const Raster& whole, const Rect& rect) {
  std::vector<float> out;
  for (int y = rect.y; y < rect.y + rect.height; ++y) {
    const auto from = whole.xyz.begin() + 3 * (std::ptrdiff_t{y} * whole.rect.width + rect.x);
    out.insert(out.end(), from, from + 3 * rect.width);
  }
  return out;
}

/// The frame header (SOF0) of a baseline JPEG: its marker, two bytes of length, bits, height, width.
Bytes::iterator frameOf(Bytes& bytes) {
  const Bytes marker{0xFF, 0xC0};
  return std::search(bytes.begin(), bytes.end(), marker.begin(), marker.end());
}

struct Sampling {
  int h, v;
};

TEST(Jpeg, everyRegionIsBitForBitThatOfAFullDecode) {
  // Crop and skip against all samplings, kinds, odd sizes and places: edges, corners, single pixels, across block borders.
  const TempDir folder;
  for (const Sampling sampling : {Sampling{1, 1}, Sampling{2, 1}, Sampling{2, 2}, Sampling{1, 2}, Sampling{4, 1}})
    for (const int kind : {0, 1, 2, 3, 4})
      for (const Size size : {Size{211, 173}, Size{96, 64}, Size{17, 130}, Size{257, 9}}) {
        JpegOptions options;
        options.h = sampling.h;
        options.v = sampling.v;
        options.progressive = kind == 1;
        options.separate_scans = kind == 2;
        options.restart = kind == 3 ? 5 : 0;
        options.arithmetic = kind == 4;
        const Bytes bytes = jpeg(pattern(size), options);
        auto photo = openBytes(folder, "x.jpg", bytes);
        ASSERT_TRUE(photo) << sentence(photo.error());
        const Raster whole = readWhole(*photo);
        const Picture plain = decodeJpeg(bytes);
        expectPicture(whole, plain, 255, srgbProfile(), 5e-5, 1013, "whole");
        const int w = size.width, h = size.height;
        const std::vector<Rect> rects{{0, 0, 1, 1},         {w - 1, h - 1, 1, 1},  {w / 2, h / 2, 5, 4},       {w / 3, h / 4, w / 3, h / 2},
                                      {0, h / 2, w, 1},     {w / 2, 0, 1, h},      {15, 7, 2, 2},              {w - 7, 0, 7, 9},
                                      {0, h - 3, 16, 3}};
        const std::string what = std::to_string(w) + "x" + std::to_string(h) + " " + std::to_string(sampling.h) + "," +
                                 std::to_string(sampling.v) + " kind " + std::to_string(kind);
        for (const Rect& rect : rects) EXPECT_TRUE(std::ranges::equal(read(*photo, rect).xyz, part(whole, rect))) << what;
        // All at once, and far apart, so that rows in between are skipped.
        for (const std::vector<Rect>& set :
             {rects, std::vector<Rect>{{3, 1, 5, 3}, {w - 9, h - 4, 9, 4}}, {{w / 2, h - 5, 5, 5}, {w / 2, 0, 5, 2}}}) {
          const auto all = photo->pixels(set);
          ASSERT_TRUE(all) << what << sentence(all.error());
          for (std::size_t i = 0; i < set.size(); ++i)
            EXPECT_TRUE(std::ranges::equal((*all)[i].xyz, part(whole, set[i]))) << what << " set " << i;
        }
      }
}

TEST(Jpeg, isUprightInAllEightOrientations) {
  const TempDir folder;
  const Picture picture = pattern({75, 50});
  for (int orientation = 1; orientation <= 8; ++orientation)
    for (const bool big : {false, true}) {
      JpegOptions options;
      options.exif = exif({.orientation = orientation, .big_endian = big});
      const Bytes bytes = jpeg(picture, options);
      const Picture want = upright(decodeJpeg(bytes), orientation);
      auto photo = openBytes(folder, "x.jpg", bytes);
      ASSERT_TRUE(photo);
      EXPECT_EQ(photo->facts().orientation, orientation);
      ASSERT_EQ(photo->size(), want.size);
      expectPicture(readWhole(*photo), want, 255, srgbProfile(), 5e-5, 7, "whole " + std::to_string(orientation));
      expectPicture(read(*photo, {20, 31, 17, 11}), want, 255, srgbProfile(), 5e-5, 3, "part " + std::to_string(orientation));
    }
}

TEST(Jpeg, factsAreThoseOfTheFile) {
  const TempDir folder;
  JpegOptions options;
  options.quality = 83;
  options.exif = exif({.orientation = 3, .make = "Maker", .model = "One", .software = "Firmware 1.0", .colour_space = 1});
  auto photo = openBytes(folder, "misnamed.png", jpeg(pattern({40, 30}), options));
  ASSERT_TRUE(photo);
  const PhotoFacts& facts = photo->facts();
  EXPECT_EQ(facts.format, "JPEG");
  EXPECT_EQ(facts.path.filename(), "misnamed.png");
  EXPECT_EQ(facts.bits, 8);
  EXPECT_EQ(facts.jpeg_quality, 83);
  EXPECT_TRUE(facts.chroma_subsampled);
  EXPECT_TRUE(facts.camera_data);
  EXPECT_EQ(facts.software, "Firmware 1.0");
  EXPECT_TRUE(facts.tagged);
  EXPECT_EQ(facts.encoding, "sRGB");
  EXPECT_FALSE(facts.linear);

  options = {};
  options.h = options.v = 1;
  const auto plain = openBytes(folder, "y.jpg", jpeg(pattern({40, 30}), options));
  EXPECT_FALSE(plain->facts().chroma_subsampled);
  EXPECT_FALSE(plain->facts().camera_data);
  EXPECT_FALSE(plain->facts().tagged);
  EXPECT_EQ(plain->facts().encoding, "sRGB (assumed)");
}

TEST(Jpeg, profilesAreObeyed) {
  const TempDir folder;
  for (const Bytes& profile : {displayP3Profile(), adobeRgbProfile(), proPhotoProfile(), swapProfile(), tableProfile()}) {
    JpegOptions options;
    options.profile = profile;
    const Bytes bytes = jpeg(pattern({40, 30}), options);
    auto photo = openBytes(folder, "x.jpg", bytes);
    ASSERT_TRUE(photo);
    EXPECT_TRUE(photo->facts().tagged);
    expectPicture(readWhole(*photo), decodeJpeg(bytes), 255, profile, 2e-6, 11, photo->facts().encoding);
  }
}

TEST(Jpeg, refusals) {
  const TempDir folder;
  EXPECT_EQ(outcome(openBytes(folder, "a", greyJpeg({20, 20}))), "photo-one-channel");
  EXPECT_EQ(outcome(openBytes(folder, "a", cmykJpeg({20, 20}))), "photo-cmyk");
  JpegOptions options;
  options.profile = brokenProfile();
  const Bytes broken = jpeg(pattern({20, 20}), options);
  EXPECT_EQ(outcome(openBytes(folder, "a", broken)), "profile-unusable");
  EXPECT_EQ(outcome(openBytes(folder, "a", broken, {}, Encoding::Srgb)), "ok");
  EXPECT_EQ(outcome(openBytes(folder, "a", broken, {}, Encoding::Linear)), "ok");
  options.profile = cmykProfile();
  EXPECT_EQ(outcome(openBytes(folder, "a", jpeg(pattern({20, 20}), options))), "profile-unusable");

  Bytes deep = jpeg(pattern({20, 20}));
  const auto frame = frameOf(deep);
  ASSERT_NE(frame, deep.end());
  frame[4] = 12;
  EXPECT_EQ(outcome(openBytes(folder, "a", deep)), "photo-unsupported") << "12 bits";
  frame[4] = 8;
  frame[1] = 0xC3;
  EXPECT_EQ(outcome(openBytes(folder, "a", deep)), "photo-unsupported") << "lossless";
  EXPECT_EQ(outcome(openBytes(folder, "a", Bytes{0xFF, 0xD8, 0xFF, 0xD9})), "photo-empty") << "no picture in it";
}

TEST(Jpeg, theSizeIsCheckedBeforeAnythingIsDecoded) {
  const TempDir folder;
  Bytes bytes = jpeg(pattern({20, 20}));
  const auto frame = frameOf(bytes);
  frame[5] = frame[6] = frame[7] = frame[8] = 0xFF;
  EXPECT_EQ(outcome(openBytes(folder, "a", bytes)), "photo-too-large");
  frame[5] = frame[7] = 0xFF;
  frame[6] = frame[8] = 0;  // 65280 a side
  EXPECT_EQ(outcome(openBytes(folder, "a", bytes)), "photo-too-large");
}

}  // namespace
}  // namespace huewright
