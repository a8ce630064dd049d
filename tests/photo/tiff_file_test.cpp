#include "photo/tiff_file.hpp"

#include <gtest/gtest.h>

#include "support/fixtures.hpp"

namespace huewright {
namespace {

using namespace fixtures;

TEST(TiffFile, layout) {
  const Bytes bytes =
      tiff(pattern({50, 40}, 65535), {.bits = 16, .tile = 32, .compression = 5, .separate = true, .big_endian = true, .orientation = 6});
  TiffFile file(bytes);
  ASSERT_TRUE(file.open());
  const TiffLayout layout = file.layout();
  EXPECT_EQ(layout.width, 50U);
  EXPECT_EQ(layout.height, 40U);
  EXPECT_EQ(layout.bits, 16);
  EXPECT_EQ(layout.channels, 3);
  EXPECT_EQ(layout.photometric, 2);
  EXPECT_EQ(layout.orientation, 6);
  EXPECT_TRUE(layout.tiled && layout.separate && layout.decodable);
  EXPECT_EQ(layout.block_width, 32U);
  EXPECT_EQ(layout.block_bytes, 32U * 32U * 2U);
  EXPECT_TRUE(file.allBlocksInside());
  EXPECT_TRUE(file.noBlockMissing());
}

TEST(TiffFile, blocksComeWholeOrNotAtAll) {
  const Bytes bytes = tiff(pattern({20, 20}), {.rows_per_strip = 8});
  TiffFile file(bytes);
  ASSERT_TRUE(file.open());
  Bytes block(8 * 60);
  EXPECT_TRUE(file.readBlock(0, 8, 0, block.data(), 8 * 60));
  EXPECT_TRUE(file.readBlock(0, 16, 0, block.data(), 4 * 60)) << "the last strip is shorter";
  EXPECT_FALSE(file.readBlock(0, 16, 0, block.data(), 8 * 60));
}

TEST(TiffFile, profileAndTags) {
  const Bytes bytes = tiff(pattern({20, 20}), {.make = "Maker", .software = "Soft", .profile = srgbProfile()});
  TiffFile file(bytes);
  const ExifFacts facts = file.exif();
  EXPECT_TRUE(facts.camera_data);
  EXPECT_EQ(facts.software, "Soft");
  EXPECT_TRUE(file.mentionsProfile());
  const Bytes without = tiff(pattern({20, 20}), {.big_endian = true, .big_tiff = true});
  EXPECT_FALSE(TiffFile(without).mentionsProfile());
  const Bytes wide = tiff(pattern({20, 20}), {.big_endian = true, .big_tiff = true, .profile = srgbProfile()});
  EXPECT_TRUE(TiffFile(wide).mentionsProfile());
  const auto profile = file.profile();
  EXPECT_EQ(Bytes(profile.begin(), profile.end()), srgbProfile());
}

TEST(TiffFile, rubbishDoesNotOpen) {
  const Bytes rubbish{'I', 'I', 42, 0, 9, 0, 0, 0, 1, 2, 3};
  EXPECT_FALSE(TiffFile(rubbish).open());
  Bytes cut = tiff(pattern({20, 20}));
  cut.resize(cut.size() / 2);
  const TiffFile file(cut);
  EXPECT_FALSE(file.open());
  EXPECT_TRUE(file.pointsBeyondEnd());
}

}  // namespace
}  // namespace huewright
