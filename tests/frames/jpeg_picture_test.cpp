#include "frames/jpeg_picture.hpp"

#include <algorithm>
#include <cstdlib>
#include <gtest/gtest.h>
#include <opencv2/core.hpp>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>
#include <vector>

#include "frames/read_frame.hpp"
#include "support/moving_picture.hpp"

namespace huewright::frames {
namespace {

struct UnpackedPicture : ReadFrame {
  HuewrightSteps steps{};
};

UnpackedPicture unpacked(const std::vector<std::uint8_t>& bytes) {
  UnpackedPicture picture;
  EXPECT_EQ(unpackJpeg(bytes, roomInRead, static_cast<ReadFrame*>(&picture), picture.steps), HuewrightGot);
  return picture;
}

std::vector<std::uint8_t> packed(int quality = 95) {
  std::vector<std::uint8_t> rgb = fixtures::movingPicture(0), bytes;
  cv::Mat bgr;
  cv::cvtColor(cv::Mat(fixtures::kMovingSize.height, fixtures::kMovingSize.width, CV_8UC3, rgb.data()), bgr, cv::COLOR_RGB2BGR);
  cv::imencode(".jpg", bgr, bytes, {cv::IMWRITE_JPEG_QUALITY, quality});
  return bytes;
}

/// Without the segments of the Huffman tables (marker FFC4), as many cameras send them. Source: ITU-T T.81, B.2.4.2.
std::vector<std::uint8_t> withoutTables(const std::vector<std::uint8_t>& bytes) {
  std::vector<std::uint8_t> kept(bytes.begin(), bytes.begin() + 2);
  for (std::size_t at = 2; at + 4 < bytes.size() && bytes[at] == 0xFF;) {
    const std::size_t length = 2 + (std::size_t{bytes[at + 2]} << 8 | bytes[at + 3]);
    const auto from = bytes.begin() + static_cast<std::ptrdiff_t>(at);
    if (bytes[at + 1] == 0xDA) return kept.insert(kept.end(), from, bytes.end()), kept;
    if (bytes[at + 1] != 0xC4) kept.insert(kept.end(), from, from + static_cast<std::ptrdiff_t>(length));
    at += length;
  }
  return {};
}

TEST(UnpackJpeg, APictureComesBackWithinWhatJpegLoses) {
  const UnpackedPicture picture = unpacked(packed());
  ASSERT_EQ(picture.width, fixtures::kMovingSize.width);
  ASSERT_EQ(picture.height, fixtures::kMovingSize.height);
  const auto truth = fixtures::movingPicture(0);
  int worst = 0;
  for (std::size_t i = 0; i < truth.size(); ++i) worst = std::max(worst, std::abs(int{truth[i]} - int{picture.rgb[i]}));
  EXPECT_LE(worst, 12);  // with halved colour
}

TEST(UnpackJpeg, OneWithoutItsTablesIsTheSame) {
  const auto short_one = withoutTables(packed());
  ASSERT_LT(short_one.size() + 300, packed().size());
  EXPECT_TRUE(unpacked(short_one).rgb == unpacked(packed()).rgb);
}

TEST(UnpackJpeg, OneThatIsCutOffIsOfOneColourBelow) {
  auto bytes = packed();
  bytes.resize(bytes.size() / 2);
  testing::internal::CaptureStderr();
  const UnpackedPicture picture = unpacked(bytes);
  EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
  ASSERT_EQ(picture.height, fixtures::kMovingSize.height);
  const std::size_t stride = static_cast<std::size_t>(picture.width) * 3;
  for (std::size_t below = 2; below <= 8; ++below)
    EXPECT_TRUE(std::equal(picture.rgb.end() - static_cast<std::ptrdiff_t>(stride), picture.rgb.end(), picture.rgb.end() - static_cast<std::ptrdiff_t>(stride * below))) << below;
}

TEST(UnpackJpeg, WhatIsNoPictureHasNoPixels) {
  auto headless = packed();
  headless.erase(headless.begin(), headless.begin() + 40);
  for (const auto& bytes : {std::vector<std::uint8_t>{}, std::vector<std::uint8_t>(500, 'x'), std::vector<std::uint8_t>{0xFF, 0xD8}, headless}) {
    const UnpackedPicture picture = unpacked(bytes);
    EXPECT_EQ(picture.width, 0) << bytes.size();
    EXPECT_EQ(picture.height, 0) << bytes.size();
  }
}

TEST(UnpackJpeg, RoomThatIsNotGivenIsTold) {
  HuewrightSteps steps{};
  EXPECT_EQ(unpackJpeg(packed(), [](void*, std::int32_t, std::int32_t) -> std::uint8_t* { return nullptr; }, nullptr, steps), HuewrightNoRoom);
}

// Quality scales the tables of ITU-T T.81, annex K.1, whose first entries are 16 and 17, by (200 - 2 Q) %: the Independent JPEG Group's rule.
TEST(UnpackJpeg, TellsTheStepsOfItsTables) {
  struct Row {
    int quality;
    double luma, chroma;
  };
  for (const Row& row : {Row{95, 2 / 8.0, 2 / 8.0}, Row{90, 3 / 8.0, 3 / 8.0}, Row{75, 8 / 8.0, 9 / 8.0}, Row{50, 16 / 8.0, 17 / 8.0}}) {
    const HuewrightSteps steps = unpacked(packed(row.quality)).steps;
    EXPECT_EQ(steps.luma, row.luma) << row.quality;
    EXPECT_EQ(steps.blue, row.chroma) << row.quality;
    EXPECT_EQ(steps.red, row.chroma) << row.quality;
    EXPECT_EQ(steps.subsampled, 1) << row.quality;
  }
  EXPECT_EQ(unpacked({1, 2, 3}).steps.luma, 0);
}

}  // namespace
}  // namespace huewright::frames
