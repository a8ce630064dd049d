#include "photo/exif.hpp"

#include <gtest/gtest.h>

#include "support/fixtures.hpp"

namespace huewright {
namespace {

using fixtures::Exif;

TEST(ExifData, readsBothByteOrders) {
  for (const bool big : {false, true}) {
    const ExifFacts facts = readExif(fixtures::exif({.orientation = 7, .make = "Maker", .software = "Version 2 ", .big_endian = big}));
    EXPECT_EQ(facts.orientation, 7);
    EXPECT_TRUE(facts.camera_data);
    EXPECT_EQ(facts.software, "Version 2");
    EXPECT_FALSE(facts.colour);
  }
}

TEST(ExifData, cameraDataIsMakeModelOrExposure) {
  EXPECT_TRUE(readExif(fixtures::exif({.make = "M"})).camera_data);
  EXPECT_TRUE(readExif(fixtures::exif({.model = "M"})).camera_data);
  EXPECT_TRUE(readExif(fixtures::exif({.exposure = true})).camera_data);
  EXPECT_FALSE(readExif(fixtures::exif({.orientation = 1, .software = "Editor"})).camera_data);
}

TEST(ExifData, colourSpace) {
  struct Row {
    int space;
    const char* interoperability;
    const char* name;
  };
  // EXIF 2.32, 4.6.5 (ColorSpace); DCF 2.0 (R03: the optional colour space)
  const Row rows[] = {{1, "R98", "sRGB"}, {1, "", "sRGB"}, {65535, "R03", "Adobe RGB"}, {2, "", "Adobe RGB"}, {65535, "", ""},
                      {65535, "R98", ""}, {0, "", ""}};
  for (const Row& row : rows) {
    const auto colour = readExif(fixtures::exif({.make = "M", .colour_space = row.space, .interoperability = row.interoperability})).colour;
    EXPECT_EQ(colour ? colour->name : "", row.name) << row.space << row.interoperability;
  }
}

TEST(ExifData, damageGivesTheDefaults) {
  const fixtures::Bytes good = fixtures::exif({.orientation = 6, .make = "Maker", .colour_space = 1, .interoperability = "R98"});
  for (std::size_t length = 0; length < good.size(); ++length) {
    const ExifFacts facts = readExif(std::span(good).first(length));
    EXPECT_TRUE(facts.orientation == 1 || facts.orientation == 6);
  }
  EXPECT_EQ(readExif(fixtures::exif({.orientation = 9})).orientation, 1);
  EXPECT_EQ(readExif(fixtures::Bytes(100, 0xAA)).orientation, 1);
}

TEST(ExifData, aJpegHeaderInFrontIsSteppedOver) {
  const fixtures::Bytes tiff = fixtures::exif({.orientation = 5});
  fixtures::Bytes bytes{'E', 'x', 'i', 'f', 0, 0};
  for (const std::uint8_t byte : tiff) bytes.push_back(byte);
  EXPECT_EQ(readExif(bytes).orientation, 5);
}

}  // namespace
}  // namespace huewright
