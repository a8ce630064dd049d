#include "photo/jpeg_quality.hpp"

#include <gtest/gtest.h>

#include "photo/expect.hpp"
#include "photo/jpeg_reader.hpp"

namespace huewright {
namespace {

TEST(JpegQuality, findsEveryQualityOfTheLibrary) {
  // Checked against the tables that the library itself writes for each quality.
  const fixtures::Picture picture = fixtures::flat({8, 8}, {90, 120, 150});
  for (int quality = 1; quality <= 100; ++quality) {
    fixtures::JpegOptions options;
    options.quality = quality;
    const fixtures::Bytes bytes = fixtures::jpeg(picture, options);
    JpegReader reader(bytes);
    ASSERT_TRUE(reader.readHeader(false));
    EXPECT_EQ(estimateQuality(*reader.header().luminance), quality);
    EXPECT_TRUE(onLibraryScale(*reader.header().luminance));
  }
}

TEST(JpegQuality, aStrangeTableGetsTheNearest) {
  std::array<std::uint16_t, 64> table{};
  table.fill(1);
  EXPECT_EQ(estimateQuality(table), 100);
  EXPECT_TRUE(onLibraryScale(table));
  table.fill(2);
  EXPECT_FALSE(onLibraryScale(table));
  EXPECT_GE(estimateQuality(table), 97);
  table.fill(65535);
  EXPECT_EQ(estimateQuality(table), 1);
}

}  // namespace
}  // namespace huewright
