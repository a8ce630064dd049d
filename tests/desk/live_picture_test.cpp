#include "desk/live_picture.hpp"

#include <gtest/gtest.h>

#include "live_job.hpp"

namespace huewright::desk {
namespace {

TEST(LivePicture, TheFrameFillsItsRoomAndIsNotBent) {
  fixtures::DeskDriver driver(1600, 900);
  fixtures::addLive(driver.state, {1000, 500});
  driver.key(Do::PageLive);
  driver.frames(2);
  const auto box = fixtures::DeskDriver::imageBox(driver.textures.last);
  const float width = box[2] - box[0], height = box[3] - box[1];
  EXPECT_GT(width, 0.5f * 1600);
  EXPECT_NEAR(width, 2 * height, 2);
}

TEST(LivePicture, OnlyTheNewestIsOnTheCard) {
  fixtures::DeskDriver driver;
  fixtures::addLive(driver.state, {600, 400});
  driver.key(Do::PageLive);
  for (int i = 0; i < 20; ++i) {
    driver.state.live.now.picture = fixtures::patternPicture({600, 400});
    driver.frame();
  }
  driver.frames(2);
  EXPECT_EQ(driver.textures.held.size(), 1u);
  EXPECT_GE(driver.textures.made, 20);
  EXPECT_TRUE(driver.textures.dropped_right);
}

TEST(LivePicture, WithoutAFrameWhatIsKnownIsSaid) {
  fixtures::DeskDriver driver;
  fixtures::addLive(driver.state);
  driver.state.live.now = {};
  driver.state.live.now.trouble = "There is no camera here.";
  driver.key(Do::PageLive);
  driver.frames(2);
  EXPECT_EQ(driver.textures.made, 0);
}

}  // namespace
}  // namespace huewright::desk
