#include "photo/photo.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <sys/stat.h>

#include "colour/lab.hpp"
#include "photo/expect.hpp"
#include "support/textured.hpp"

namespace huewright {
namespace {

using namespace fixtures;

TEST(PhotoRoom, formatIsTakenFromTheContent) {
  const TempDir folder;
  const Picture picture = pattern({64, 64});
  const std::pair<const char*, Bytes> rows[] = {{"JPEG", jpeg(picture)},
                                                {"PNG", png(picture)},
                                                {"TIFF", tiff(picture)},
                                                {"HEIF", heif(picture)},
                                                {"AVIF", heif(picture, {.avif = true})}};
  for (const auto& [format, bytes] : rows) {
    const auto photo = openBytes(folder, "picture.txt", bytes);
    ASSERT_TRUE(photo) << format;
    EXPECT_EQ(photo->facts().format, format);
    EXPECT_EQ(photo->size(), picture.size);
  }
}

TEST(PhotoRoom, tracesOfAJpeg) {
  const TempDir folder;
  const Picture picture = textured({480, 320});
  const Bytes once = jpeg(picture, {.quality = 70, .exif = exif({.make = "M", .told = {4000, 3000}})});
  auto first = openBytes(folder, "once.jpg", once), second = openBytes(folder, "twice.jpg", jpeg(decodeJpeg(once), {.quality = 90, .progressive = true}));
  ASSERT_TRUE(first && second);
  EXPECT_TRUE(first->traces().jfif && first->traces().scaled_tables && first->traces().exif.present);
  EXPECT_EQ(first->traces().exif.told_size, (Size{4000, 3000}));
  EXPECT_FALSE(first->traces().compressed_twice || first->traces().progressive);
  EXPECT_TRUE(second->traces().compressed_twice && second->traces().progressive);
  EXPECT_FALSE(second->traces().exif.present);
}

TEST(PhotoRoom, tracesOfCodesAreThoseOfTheFirstDecoding) {
  const TempDir folder;
  Picture stretched = textured({480, 320});
  for (auto& code : stretched.rgb) code = static_cast<std::uint16_t>(std::clamp((code - 30) * 5 / 4, 0, 255));
  for (const bool compressed : {false, true}) {
    auto photo = openBytes(folder, "x", compressed ? png(stretched, {.alpha = true, .exif = exif({.make = "M"})}) : tiff(stretched));
    ASSERT_TRUE(photo);
    EXPECT_FALSE(photo->traces().codes.gaps) << "nothing has been decoded";
    EXPECT_TRUE(compressed ? photo->preview(200).has_value() : readWhole(*photo).xyz.size() > 0);
    EXPECT_TRUE(photo->traces().codes.gaps);
    EXPECT_EQ(photo->traces().alpha, compressed);
    EXPECT_EQ(photo->traces().exif.present, compressed);
    readWhole(*photo);
    EXPECT_TRUE(photo->traces().codes.gaps);
  }
  auto deep = openBytes(folder, "deep.png", png(times(stretched, 257), {.bits = 16}));
  ASSERT_TRUE(deep && deep->preview(200));
  EXPECT_FALSE(deep->traces().codes.gaps);
}

TEST(PhotoRoom, whatIsNoPicture) {
  const TempDir folder;
  EXPECT_EQ(outcome(openBytes(folder, "x.jpg", Bytes{'h', 'e', 'l', 'l', 'o'})), "format-unknown");
  EXPECT_EQ(outcome(openBytes(folder, "x.jpg", Bytes{0xFF})), "format-unknown");
  EXPECT_EQ(outcome(openBytes(folder, "x.jpg", Bytes{'G', 'I', 'F', '8', '9', 'a', 0, 0})), "format-unknown");
  EXPECT_EQ(outcome(openBytes(folder, "x.jpg", Bytes(5000, 0))), "format-unknown");
  EXPECT_EQ(outcome(openBytes(folder, "x.jpg", {})), "file-empty");
  EXPECT_EQ(outcome(Photo::open(folder.path())), "file-is-folder");
  EXPECT_EQ(outcome(Photo::open(folder.path() / "none")), "file-missing");
  ASSERT_EQ(::mkfifo((folder.path() / "pipe").c_str(), 0600), 0);
  EXPECT_EQ(outcome(Photo::open(folder.path() / "pipe")), "file-not-regular");
}

TEST(PhotoRoom, rectanglesMustLieInside) {
  const TempDir folder;
  auto photo = openBytes(folder, "x.png", png(pattern({30, 20})));
  ASSERT_TRUE(photo);
  constexpr int kMost = std::numeric_limits<int>::max();
  for (const Rect& rect : {Rect{-1, 0, 5, 5}, Rect{0, -1, 5, 5}, Rect{26, 0, 5, 5}, Rect{0, 16, 5, 5}, Rect{0, 0, 0, 5}, Rect{0, 0, 5, -5},
                           Rect{5, 5, kMost, kMost}, Rect{kMost, kMost, 1, 1}}) {
    const auto rasters = photo->pixels(std::span(&rect, 1));
    ASSERT_FALSE(rasters);
    EXPECT_EQ(rasters.error().code, Code::RegionOutside);
  }
  const Rect outside{26, 0, 5, 5};
  EXPECT_EQ(photo->pixels(std::span(&outside, 1)).error().detail,
            "The rectangle 26,0,5,5 does not lie inside the picture, which is 30 by 20 pixels");
  EXPECT_TRUE(photo->pixels({})->empty());
}

TEST(PhotoRoom, rastersComeInTheOrderAsked) {
  const TempDir folder;
  auto photo = openBytes(folder, "x.jpg", jpeg(pattern({100, 100})));
  const std::vector<Rect> rects{{50, 80, 7, 5}, {0, 0, 3, 3}, {50, 80, 7, 5}, {49, 70, 20, 20}};
  const auto rasters = photo->pixels(rects);
  ASSERT_TRUE(rasters);
  ASSERT_EQ(rasters->size(), rects.size());
  for (std::size_t i = 0; i < rects.size(); ++i) {
    EXPECT_EQ((*rasters)[i].rect, rects[i]);
    EXPECT_EQ((*rasters)[i].clip.size(), std::size_t(rects[i].width * rects[i].height));
  }
  EXPECT_EQ((*rasters)[0].xyz, (*rasters)[2].xyz);
  EXPECT_EQ(xyzAt((*rasters)[0], 51, 81), xyzAt((*rasters)[3], 51, 81));
}

TEST(PhotoRoom, whiteOfEveryKindIsNeutral) {
  const TempDir folder;
  const Picture white = flat({64, 64}, {255, 255, 255});
  for (const Bytes& bytes :
       {jpeg(white), png(white), tiff(white), png(times(white, 257), {.bits = 16, .profile = displayP3Profile()}), heif(white)}) {
    auto photo = openBytes(folder, "x", bytes);
    ASSERT_TRUE(photo);
    const Raster raster = read(*photo, {31, 31, 1, 1});
    const Lab<D50> lab = toLab(Xyz<D50>{raster.xyz[0], raster.xyz[1], raster.xyz[2]});
    EXPECT_NEAR(lab.L, 100, 1e-4) << photo->facts().format;
    EXPECT_NEAR(lab.a, 0, 1e-4) << photo->facts().format;
    EXPECT_NEAR(lab.b, 0, 1e-4) << photo->facts().format;
    EXPECT_EQ(raster.clip[0], 0b111);
  }
}

TEST(PhotoRoom, aPictureInMemory) {
  std::vector<float> xyz;
  for (int i = 0; i < 12; ++i) xyz.insert(xyz.end(), {0.01F * float(i), 0.02F * float(i), 0.03F * float(i)});
  PhotoFacts facts;
  facts.encoding = "live";
  Photo photo = Photo::fromMemory({4, 3}, xyz, facts);
  EXPECT_EQ(photo.size(), (Size{4, 3}));
  EXPECT_EQ(photo.facts().encoding, "live");
  const Raster raster = read(photo, {1, 1, 2, 2});
  EXPECT_EQ(xyzAt(raster, 2, 2)[1], double(0.02F * 10));
  EXPECT_EQ(raster.clip, std::vector<std::uint8_t>(4, 0));
  const auto preview = photo.preview(2);
  ASSERT_TRUE(preview);
  EXPECT_EQ(preview->size, (Size{2, 2}));
  EXPECT_FALSE(Photo::fromMemory({0, 0}, {}).preview(10));
  Photo short_one = Photo::fromMemory({4, 3}, {0.5F});
  EXPECT_EQ(readWhole(short_one).xyz.size(), 36U) << "a buffer that is too short is filled with black";
}

TEST(PhotoRoom, movesKeepWorking) {
  const TempDir folder;
  auto first = openBytes(folder, "x.png", png(pattern({30, 20})));
  Photo second = std::move(*first);
  Photo third = Photo::fromMemory({1, 1}, {0, 0, 0});
  third = std::move(second);
  EXPECT_EQ(third.size(), (Size{30, 20}));
  EXPECT_EQ(readWhole(third).xyz.size(), 1800U);
}

TEST(PhotoRoom, aFileThatIsRewrittenMeanwhileDoesNoHarm) {
  const TempDir folder;
  const Bytes bytes = jpeg(pattern({200, 200}));
  auto photo = openBytes(folder, "x.jpg", bytes);
  std::filesystem::resize_file(folder.path() / "x.jpg", 0);
  EXPECT_EQ(readWhole(*photo).xyz.size(), 120000U);
}

}  // namespace
}  // namespace huewright
