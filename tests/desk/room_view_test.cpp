#include <gtest/gtest.h>

#include "desk/views.hpp"
#include "desk_driver.hpp"
#include "judged_job.hpp"
#include "live_job.hpp"

namespace huewright::desk {
namespace {

TEST(RoomView, TheColoursFillTheWindowsWidth) {
  fixtures::DeskDriver driver(1600, 900);
  fixtures::addVerdict(driver.state);
  driver.key(Do::PageRoom);
  driver.frames(2);
  const double card = fixtures::areaOf({60, 130, 131}), panel = fixtures::areaOf({80, 146, 142});
  EXPECT_GT(card + panel, 0.3 * 1600 * 900);
  EXPECT_NEAR(card, panel, 0.01 * card);
}

TEST(RoomView, NoLetterIsCutOff) {
  for (const float text : {1.0f, 3.0f}) {
    fixtures::DeskDriver driver(1280, 720, text);
    fixtures::addVerdict(driver.state);
    for (int panel = 0; panel < 3; ++panel) {
      driver.view().verdict.panel = panel;
      driver.key(Do::PageRoom);
      driver.frames(2);
      EXPECT_LE(fixtures::DeskDriver::cutOff("desk"), 1.0f) << text << " " << panel;
    }
  }
}

TEST(RoomView, SaysWhyThereIsNone) {
  fixtures::DeskDriver driver;
  driver.state.judge_trouble = "No mat was found.";
  driver.key(Do::PageRoom);
  driver.frames(2);
  EXPECT_EQ(driver.view().look.page, Page::Room);
  EXPECT_EQ(fixtures::areaOf({60, 130, 131}), 0);
}

TEST(RoomView, WhileACameraRunsItIsTheOneThatSpeaks) {
  fixtures::DeskDriver driver(1600, 900);
  fixtures::addVerdict(driver.state);
  fixtures::addLive(driver.state);
  driver.key(Do::PageRoom);
  driver.frames(2);
  EXPECT_GT(fixtures::areaOf(fixtures::kLivePanel), 0.1 * 1600 * 900);
  EXPECT_NEAR(fixtures::areaOf(fixtures::kLivePanel), fixtures::areaOf(fixtures::kLiveCard), 0.01 * fixtures::areaOf(fixtures::kLivePanel));
  EXPECT_EQ(fixtures::areaOf({80, 146, 142}), 0);  // the photo's
  driver.state.live.running = false;
  driver.frames(2);
  EXPECT_EQ(fixtures::areaOf(fixtures::kLivePanel), 0);
  EXPECT_GT(fixtures::areaOf({80, 146, 142}), 0);
}

TEST(RoomView, WithoutACameraThePhotoThatCameLastSpeaks) {
  fixtures::DeskDriver driver(1600, 900);
  fixtures::addVerdict(driver.state);
  fixtures::addArrivals(driver.state);
  driver.key(Do::PageRoom);
  driver.frames(2);
  EXPECT_GT(fixtures::areaOf(fixtures::kCamePanel), 0.1 * 1600 * 900);
  driver.state.arrivals.insert(driver.state.arrivals.begin(), driver.state.arrivals.back());  // one that cannot be used
  driver.frames(2);
  EXPECT_EQ(fixtures::areaOf(fixtures::kCamePanel), 0);
  driver.state.followed.came_last = false;  // a photo was opened since
  driver.frames(2);
  EXPECT_GT(fixtures::areaOf({80, 146, 142}), 0);
}

TEST(RoomView, ItsLargeKeysWork) {
  fixtures::DeskDriver driver(1280, 720);
  fixtures::addLive(driver.state);
  driver.key(Do::PageLive);
  driver.key(Do::PageRoom);
  driver.frames(2);
  driver.key(Do::RoomStill);
  EXPECT_EQ(driver.all<act::TakeStill>().size(), 1u);
  driver.key(Do::RoomAnew);
  EXPECT_EQ(driver.all<act::BeginAnew>().size(), 1u);
  const auto still = driver.find("desk", {{Do::RoomStill, ""}});
  ASSERT_TRUE(still);
  driver.click(still->x, still->y);
  EXPECT_EQ(driver.all<act::TakeStill>().size(), 2u);
  driver.key(Do::RoomBack);
  EXPECT_EQ(driver.view().look.page, Page::Live);
  driver.state.live.running = false;
  driver.key(Do::PageRoom);
  driver.key(Do::RoomStill);
  EXPECT_EQ(driver.all<act::TakeStill>().size(), 2u);
}

TEST(RoomView, NothingOfTheCamerasIsCutOff) {
  for (const float text : {1.0f, 3.0f})
    for (const bool away : {false, true}) {
      fixtures::DeskDriver driver(1280, 720, text);
      fixtures::addLive(driver.state);
      fixtures::addArrivals(driver.state);
      if (away) driver.state.live.now.judged.reset(), driver.state.live.now.away = true, driver.state.live.now.trouble = "The camera \"0\" is away. It is waited for; plug it in again.";
      driver.key(Do::PageRoom);
      driver.frames(2);
      EXPECT_LE(fixtures::DeskDriver::cutOff("desk"), 1.0f) << text << " " << away;
    }
}

}  // namespace
}  // namespace huewright::desk
