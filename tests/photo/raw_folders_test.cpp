#include "photo/raw_folders.hpp"

#include <gtest/gtest.h>

#include "photo/expect.hpp"

namespace huewright {
namespace {

using namespace fixtures;

Bytes evenRawFile(const DngOptions& options) {
  return dng({32, 24}, std::vector<std::uint16_t>(32 * 24 * (options.linear ? 3 : 1), 5000), options);
}

std::string verdict(const RawMarks& marks) { return outcome(checkRawMarks(marks, "x")); }

TEST(RawFolders, sensorDataIsFoundWhereverItStands) {
  for (const bool big : {false, true})
    for (const bool below : {false, true})
      for (const bool linear : {false, true}) {
        const Bytes bytes = evenRawFile({.big_endian = big, .linear = linear, .rows_per_strip = 7, .below = below});
        const RawMarks marks = findRawMarks(bytes);
        EXPECT_TRUE(marks.raw && marks.dng && marks.sensor && marks.has_data && marks.inside && marks.plain && marks.enough);
        EXPECT_FALSE(marks.beyond || marks.lossy);
        EXPECT_EQ(verdict(marks), "ok");
      }
}

TEST(RawFolders, pictureFilesAreNotRaw) {
  for (const bool big : {false, true})
    for (const bool wide : {false, true}) {
      const Bytes bytes = tiff(pattern({30, 30}), {.big_endian = big, .big_tiff = wide, .make = "Maker"});
      EXPECT_FALSE(findRawMarks(bytes).raw);
      const Bytes raw = tiff(pattern({30, 30}, 65535), {.bits = 16, .big_endian = big, .big_tiff = wide, .photometric = 32803});
      EXPECT_TRUE(findRawMarks(raw).raw);
      EXPECT_FALSE(findRawMarks(raw).dng);
    }
  // Grey pixels right behind the header that happen to be the letters of a mark.
  EXPECT_FALSE(findRawMarks(tiff(flat({30, 30}, {'I', 'I', 'I'}))).raw);
  EXPECT_FALSE(findRawMarks(tiff(flat({30, 30}, {'M', 'M', 'M'}), {.big_endian = true})).raw);
  EXPECT_FALSE(findRawMarks(jpeg(pattern({30, 30}))).raw);
  EXPECT_FALSE(findRawMarks({}).raw);
}

TEST(RawFolders, cutFilesPointBeyondTheirEnd) {
  const Bytes whole = evenRawFile({.rows_per_strip = 7, .below = true});
  for (std::size_t length = 16; length < whole.size(); length += 11) {
    const RawMarks marks = findRawMarks(std::span(whole).first(length));
    if (marks.raw) {
      EXPECT_EQ(verdict(marks), "photo-truncated") << length;
    }
  }
  EXPECT_TRUE(findRawMarks(std::span(whole).first(whole.size() - 1)).raw);
}

TEST(RawFolders, whatCannotBeRead) {
  EXPECT_EQ(verdict(findRawMarks(evenRawFile({.rows_per_strip = 7, .gap = true}))), "photo-unsupported");
  RawMarks marks{.raw = true, .dng = true, .sensor = true, .has_data = true};
  EXPECT_EQ(verdict(marks), "ok");
  marks.lossy = true;
  EXPECT_EQ(verdict(marks), "photo-unsupported");
  marks.lossy = false, marks.enough = false;
  EXPECT_EQ(verdict(marks), "photo-corrupt");
  marks.has_data = false;
  EXPECT_EQ(verdict(marks), "photo-empty");
  EXPECT_EQ(verdict({.raw = true, .dng = true}), "photo-empty") << "a version and no sensor data";
  EXPECT_EQ(verdict({.raw = true}), "ok") << "known by the maker's mark only";
}

TEST(RawFolders, foldersThatRunInACircleEnd) {
  Bytes bytes = evenRawFile({});
  // The next folder's place stands behind the entries of the first: it becomes the first again.
  const std::size_t at = 8 + 2 + 12 * std::size_t(bytes[8]);
  bytes[at] = 8;
  EXPECT_EQ(verdict(findRawMarks(bytes)), "ok");
}

TEST(RawFolders, containersThatAreNoTiff) {
  const auto is = [](const std::string& start) {
    Bytes bytes(start.begin(), start.end());
    bytes.resize(64);
    return isForeignRaw(bytes);
  };
  EXPECT_TRUE(is("FUJIFILMCCD-RAW 0201"));
  EXPECT_TRUE(is(std::string("\0\0\0\x18", 4) + "ftypcrx "));
  EXPECT_TRUE(is("IIRO"));
  EXPECT_FALSE(is(std::string("\0\0\0\x18", 4) + "ftypheic"));
  EXPECT_FALSE(is("II*"));
  EXPECT_FALSE(isForeignRaw({}));
}

}  // namespace
}  // namespace huewright
