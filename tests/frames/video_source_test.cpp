#include "frames/video_source.hpp"

#include <gtest/gtest.h>
#include <vector>

#include "frames/read_frame.hpp"
#include "photo/write.hpp"
#include "support/films.hpp"
#include "support/moving_picture.hpp"
#include "support/temp_dir.hpp"

namespace huewright::frames {
namespace {

std::vector<ReadFrame> allFrames(VideoSource& source) {
  std::vector<ReadFrame> frames;
  for (ReadFrame frame; source.read(1, roomInRead, &frame) == HuewrightGot && frames.size() < 100;) frames.push_back(std::move(frame));
  return frames;
}

void sequence(const fixtures::TempDir& folder, int first, int pictures) {
  for (int i = 0; i < pictures; ++i)
    ASSERT_TRUE(writePng(folder.path() / ("p_" + std::to_string(first + i) + ".png"), fixtures::kMovingSize, fixtures::movingPicture(i)));
}

TEST(VideoSource, PicturesOfASequenceComeBackToTheLastBit) {
  for (const int first : {0, 1}) {
    const fixtures::TempDir folder;
    sequence(folder, first, 4);
    auto source = VideoSource::open((folder.path() / "p_%d.png").string());
    ASSERT_TRUE(source) << source.error();
    EXPECT_EQ((*source)->facts().width, fixtures::kMovingSize.width);
    EXPECT_EQ((*source)->facts().live, 0);
    const auto frames = allFrames(**source);
    ASSERT_EQ(frames.size(), 4U) << first;
    for (int i = 0; i < 4; ++i) EXPECT_EQ(frames[static_cast<std::size_t>(i)].rgb, fixtures::movingPicture(i)) << first << ", " << i;
    EXPECT_EQ((*source)->hold().exposure, HuewrightNoSuch);
  }
}

TEST(VideoSource, ADamagedPictureOfASequenceIsAFrameWithoutPixels) {
  const fixtures::TempDir folder;
  sequence(folder, 0, 4);
  folder.put("p_2.png", std::vector<unsigned char>{0x89, 'P', 'N', 'G'});
  auto source = VideoSource::open((folder.path() / "p_%d.png").string());
  ASSERT_TRUE(source) << source.error();
  const auto frames = allFrames(**source);
  ASSERT_EQ(frames.size(), 4U);
  EXPECT_EQ(frames[2].width, 0);
  EXPECT_EQ(frames[3].rgb, fixtures::movingPicture(3));
}

TEST(VideoSource, RoomThatIsNotGivenIsTold) {
  const fixtures::TempDir folder;
  sequence(folder, 0, 1);
  auto source = VideoSource::open((folder.path() / "p_%d.png").string());
  ASSERT_TRUE(source) << source.error();
  EXPECT_EQ((*source)->read(1, [](void*, std::int32_t, std::int32_t) -> std::uint8_t* { return nullptr; }, nullptr), HuewrightNoRoom);
}

TEST(VideoSource, FilesWithoutPicturesAreRefusedInSilence) {
  const fixtures::TempDir folder;
  for (const char* name : {"a.avi", "b.mkv", "c_0.png"}) {
    folder.put(name, std::vector<unsigned char>(500, 'x'));
    testing::internal::CaptureStderr();
    const auto source = VideoSource::open((folder.path() / (name[0] == 'c' ? "c_%d.png" : name)).string());
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "") << name;
    ASSERT_FALSE(source) << name;
    EXPECT_NE(source.error().find("holds no pictures"), std::string::npos) << source.error();
  }
}

}  // namespace
}  // namespace huewright::frames
