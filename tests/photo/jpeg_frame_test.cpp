#include "photo/jpeg_frame.hpp"

#include <gtest/gtest.h>

#include "support/fixtures.hpp"

namespace huewright {
namespace {

using namespace fixtures;

TEST(JpegFrame, isFoundInEveryKindThatIsRead) {
  JpegOptions plain, progressive, with_data, separate;
  progressive.progressive = true;
  with_data.exif = exif({.make = "Simulated", .thumbnail = jpeg(flat({16, 12}, {1, 2, 3}))});  // whose own frame must not be taken
  with_data.profile = Bytes(100'000, 7);
  separate.separate_scans = true;
  for (const JpegOptions& options : {plain, progressive, with_data, separate}) {
    const Bytes bytes = jpeg(pattern({67, 45}), options);
    const auto frame = findFrame(bytes);
    ASSERT_TRUE(frame);
    EXPECT_EQ(frame->size, (Size{67, 45}));
    EXPECT_EQ(bytes[frame->height_at] << 8 | bytes[frame->height_at + 1], 45);
  }
}

TEST(JpegFrame, isNotFoundWhereThereIsNone) {
  const Bytes whole = jpeg(pattern({67, 45}));
  const std::size_t at = findFrame(whole)->height_at;
  for (std::size_t length = 0; length < at + 4; ++length) EXPECT_FALSE(findFrame(std::span(whole).first(length))) << length;
  EXPECT_TRUE(findFrame(std::span(whole).first(at + 4)));
  EXPECT_FALSE(findFrame(png(pattern({8, 8}))));
  Bytes zeros{0xFF, 0xD8, 0xFF, 0xE0, 0, 0, 0, 0, 0, 0, 0, 0, 0};  // a segment of no length
  EXPECT_FALSE(findFrame(zeros));
}

}  // namespace
}  // namespace huewright
