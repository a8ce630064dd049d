#include <gtest/gtest.h>

#include "desk/views.hpp"
#include "desk_driver.hpp"
#include "judged_job.hpp"

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

}  // namespace
}  // namespace huewright::desk
