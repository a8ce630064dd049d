#include <gtest/gtest.h>

#include "desk/views.hpp"
#include "desk_driver.hpp"

namespace huewright::desk {
namespace {

void clickButton(fixtures::DeskDriver& driver, const fixtures::IdStep& button) {
  const auto at = driver.find("first steps", {button});
  ASSERT_TRUE(at) << button.words();
  driver.click(at->x, at->y);
}

TEST(FirstSteps, AreShownAtTheFirstStartOnly) {
  fixtures::DeskDriver driver;
  EXPECT_EQ(driver.view().first_step, 0);  // this one has been here
  Desk fresh(driver.textures, DeskLook{}, 1);
  EXPECT_EQ(fresh.view().first_step, 1);
}

TEST(FirstSteps, EachOpensItsSampleOnItsPage) {
  const std::array<std::pair<const char*, Page>, 3> steps{{{"Open the sample photo", Page::Panel}, {"Open the sample series", Page::Mixes}, {"Open the sample chart", Page::Camera}}};
  fixtures::DeskDriver driver;
  for (int i = 0; i < 3; ++i) {
    driver.key(Do::Demo);
    ASSERT_EQ(driver.view().first_step, 1);
    for (int k = 0; k < i; ++k) clickButton(driver, Do::NextStep);
    clickButton(driver, {Do::TakeStep, steps[static_cast<std::size_t>(i)].first});
    const auto asked = driver.all<act::Demo>();
    ASSERT_EQ(asked.size(), static_cast<std::size_t>(i + 1));
    EXPECT_EQ(asked.back().step, i + 1);
    EXPECT_EQ(driver.view().look.page, steps[static_cast<std::size_t>(i)].second);
    EXPECT_EQ(driver.view().first_step, 0);
  }
}

TEST(FirstSteps, OnesOwnPhotoAsksForIt) {
  fixtures::DeskDriver driver;
  driver.key(Do::Demo);
  clickButton(driver, Do::OwnPhoto);
  EXPECT_EQ(driver.view().browser.asking, Asking::Photo);
}

TEST(FirstSteps, KeysDoAllOfIt) {
  fixtures::DeskDriver driver;
  driver.key(Do::Demo);
  driver.key(Do::StepBefore);
  EXPECT_EQ(driver.view().first_step, 1);  // there is none before
  for (const int step : {2, 3, 3}) {
    driver.key(Do::NextStep);
    EXPECT_EQ(driver.view().first_step, step);
  }
  driver.key(Do::StepBefore);
  driver.key(Do::TakeStep);
  ASSERT_EQ(driver.all<act::Demo>().size(), 1u);
  EXPECT_EQ(driver.all<act::Demo>()[0].step, 2);
  driver.key(Do::Demo);
  driver.key(Do::NotNow);
  EXPECT_EQ(driver.view().first_step, 0);
}

TEST(FirstSteps, NoWordIsCutOff) {
  for (const float text : {1.0f, 3.0f}) {
    fixtures::DeskDriver driver(1280, 720, text);
    driver.key(Do::Demo);
    driver.frames(3);
    EXPECT_LE(fixtures::DeskDriver::cutOff("first steps"), 1.0f) << text;
  }
}

}  // namespace
}  // namespace huewright::desk
