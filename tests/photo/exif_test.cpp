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

TEST(ExifData, tracesOfWhatCameAfterTheCamera) {
  EXPECT_FALSE(readExif({}).traces.present);
  for (const bool big : {false, true}) {
    const ExifTraces traces = readExif(fixtures::exif({.make = "M", .exposure = true, .big_endian = big, .taken = "2024:05:17 10:31:00",
                                                       .changed = "2024:05:17 10:31:02", .told = {4000, 3000},
                                                       .thumbnail = fixtures::jpeg(fixtures::flat({160, 120}, {1, 2, 3}))}))
                                  .traces;
    EXPECT_TRUE(traces.present);
    EXPECT_TRUE(traces.exposure);
    EXPECT_FALSE(traces.changed_later);
    EXPECT_EQ(traces.told_size, (Size{4000, 3000}));
    EXPECT_EQ(traces.thumbnail, (Size{160, 120}));
  }
  const ExifTraces whole = readExif(fixtures::exif({.make = "Maker", .model = "One", .taken = "2024:05:17 10:31:00"})).traces;
  EXPECT_EQ(whole.camera, "Maker One");
  EXPECT_EQ(whole.day, "2024-05-17");
  EXPECT_EQ(readExif(fixtures::exif({.model = "One", .taken = "0000:00:00 00:00:00"})).traces.camera, "One");
  EXPECT_EQ(readExif(fixtures::exif({.model = "One", .taken = "0000:00:00 00:00:00"})).traces.day, "");
  const ExifTraces little = readExif(fixtures::exif({.make = "M"})).traces;
  EXPECT_TRUE(little.present);
  EXPECT_FALSE(little.exposure || little.changed_later || little.told_size || little.thumbnail);
}

TEST(ExifData, changedLaterIsMoreThanAMinuteAfter) {
  struct Row {
    const char *taken, *changed;
    bool later;
  };
  for (const Row& row : {Row{"2024:05:17 10:31:00", "2024:05:17 10:31:59", false}, Row{"2024:05:17 10:31:00", "2024:05:17 10:32:01", true},
                         Row{"2023:12:31 23:59:59", "2024:01:01 00:00:10", false}, Row{"2023:12:31 23:59:59", "2024:01:01 00:02:00", true},
                         Row{"2024:05:17 10:31:00", "2020:01:01 00:00:00", false}, Row{"0000:00:00 00:00:00", "2024:05:17 10:31:00", false},
                         Row{"    :  :     :  :  ", "2024:05:17 10:31:00", false}, Row{"2024-05-17 10:31:00", "2024:06:17 10:31:00", false},
                         Row{"", "2024:06:17 10:31:00", false}, Row{"2024:05:17 10:31:00", "", false}, Row{"2024:02:31 10:31:00", "2024:06:17 10:31:00", false}})
    EXPECT_EQ(readExif(fixtures::exif({.taken = row.taken, .changed = row.changed})).traces.changed_later, row.later) << row.taken << " " << row.changed;
}

TEST(ExifData, aJpegHeaderInFrontIsSteppedOver) {
  const fixtures::Bytes tiff = fixtures::exif({.orientation = 5});
  fixtures::Bytes bytes{'E', 'x', 'i', 'f', 0, 0};
  for (const std::uint8_t byte : tiff) bytes.push_back(byte);
  EXPECT_EQ(readExif(bytes).orientation, 5);
}

}  // namespace
}  // namespace huewright
