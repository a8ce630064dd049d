#include "photo/jpeg_reader.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "photo/expect.hpp"

namespace huewright {
namespace {

using namespace fixtures;

TEST(JpegReader, decodesAsTheLibraryDoes) {
  const Bytes bytes = jpeg(pattern({67, 45}));
  const Picture want = decodeJpeg(bytes);
  JpegReader reader(bytes);
  ASSERT_TRUE(reader.readHeader(true) && reader.start(1));
  ASSERT_EQ(reader.output(), want.size);
  std::vector<std::uint8_t> row(3 * 67);
  for (int y = 0; y < 45; ++y) {
    ASSERT_TRUE(reader.read(row.data()));
    ASSERT_TRUE(std::equal(row.begin(), row.end(), want.at(0, y))) << y;
  }
  EXPECT_TRUE(reader.finish());
}

TEST(JpegReader, headerTellsTheLayout) {
  JpegOptions options;
  options.exif = exif({.orientation = 6});
  options.profile = Bytes(100'000, 7);  // in two pieces
  const Bytes bytes = jpeg(pattern({67, 45}), options);
  JpegReader reader(bytes);
  ASSERT_TRUE(reader.readHeader(true));
  const JpegHeader header = reader.header();
  EXPECT_EQ(header.width, 67U);
  EXPECT_EQ(header.height, 45U);
  EXPECT_TRUE(header.colour);
  EXPECT_TRUE(header.subsampled);
  EXPECT_EQ(header.block_width, 16);
  EXPECT_EQ(header.exif, options.exif);
  EXPECT_EQ(header.profile, options.profile);
  EXPECT_FALSE(header.profile_broken);
  EXPECT_TRUE(header.jfif);
  EXPECT_FALSE(header.progressive);
  options.progressive = true;
  Bytes other = jpeg(pattern({67, 45}), options);
  other.erase(other.begin() + 2, other.begin() + 20);  // the JFIF segment
  JpegReader second(other);
  ASSERT_TRUE(second.readHeader(false));
  EXPECT_FALSE(second.header().jfif);
  EXPECT_TRUE(second.header().progressive);
}

TEST(JpegReader, aProfileWithAPieceMissingIsBroken) {
  JpegOptions options;
  options.profile = Bytes(100'000, 7);
  Bytes bytes = jpeg(pattern({16, 16}), options);
  const std::string mark = "ICC_PROFILE";
  const auto piece = std::search(bytes.begin(), bytes.end(), mark.begin(), mark.end());
  piece[0] = 'X';
  JpegReader reader(bytes);
  ASSERT_TRUE(reader.readHeader(true));
  EXPECT_TRUE(reader.header().profile_broken);
}

TEST(JpegReader, harmlessOddities) {
  // Bytes between segments of the header, and an unknown revision of JFIF.
  Bytes bytes = jpeg(pattern({32, 32}));
  bytes[11] = 9;
  bytes.insert(bytes.begin() + 20, {0, 0, 0});
  // Padding before the end marker, and rubbish behind it.
  bytes.insert(bytes.end() - 2, {0, 0, 0, 0});
  bytes.insert(bytes.end(), 50, 0xFF);
  for (const bool all_rows : {false, true}) {
    JpegReader reader(bytes);
    ASSERT_TRUE(reader.readHeader(true) && reader.start(1));
    std::vector<std::uint8_t> row(3 * 32);
    for (int y = 0; y < (all_rows ? 32 : 3); ++y) ASSERT_TRUE(reader.read(row.data()));
    EXPECT_TRUE(reader.finish());
  }
}

TEST(JpegReader, endsTooEarlyWhereverItIsCut) {
  for (const bool progressive : {false, true}) {
    JpegOptions options;
    options.progressive = progressive;
    const Bytes bytes = jpeg(pattern({64, 64}), options);
    for (std::size_t length = 4; length < bytes.size(); length += 7) {
      JpegReader reader(std::span<const std::uint8_t>(bytes).first(length));
      std::vector<std::uint8_t> row(3 * 64);
      bool good = reader.readHeader(true) && reader.start(1);
      for (int y = 0; good && y < 8; ++y) good = reader.read(row.data());
      good = good && reader.finish();
      ASSERT_FALSE(good) << length;
      EXPECT_EQ(reader.fault(), Code::PhotoTruncated) << length;
    }
  }
}

TEST(JpegReader, aCutThatWasPatchedWithAnEndMarkerIsSeen) {
  struct Kind {
    bool progressive, separate;
  };
  for (const Kind kind : {Kind{false, false}, Kind{true, false}, Kind{false, true}}) {
    JpegOptions options;
    options.progressive = kind.progressive;
    options.separate_scans = kind.separate;
    const Bytes bytes = jpeg(pattern({64, 64}), options);
    JpegReader whole(bytes);
    ASSERT_TRUE(whole.readHeader(false));
    for (std::size_t length = bytes.size() / 2; length + 40 < bytes.size(); length += 5) {
      Bytes cut(bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(length));
      if (cut.back() == 0xFF) cut.pop_back();
      cut.insert(cut.end(), {0xFF, 0xD9});
      JpegReader reader(cut);
      std::vector<std::uint8_t> row(3 * 64);
      bool good = reader.readHeader(false) && reader.start(1);
      for (int y = 0; good && y < 64; ++y) good = reader.read(row.data());
      EXPECT_FALSE(good && reader.finish()) << length << (kind.progressive ? " progressive" : "") << (kind.separate ? " separate" : "");
    }
  }
}

}  // namespace
}  // namespace huewright
