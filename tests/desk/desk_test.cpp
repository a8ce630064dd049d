#include "desk/desk.hpp"

#include <gtest/gtest.h>

#include "desk_driver.hpp"

namespace huewright::desk {
namespace {

TEST(Desk, KeysChangeThePage) {
  fixtures::DeskDriver driver;
  for (const auto& [what, page] : {std::pair{Do::PageMixes, Page::Mixes}, std::pair{Do::PageCamera, Page::Camera}, std::pair{Do::PageRoom, Page::Room}, std::pair{Do::PageLive, Page::Live}, std::pair{Do::PagePanel, Page::Panel}}) {
    driver.key(what);
    EXPECT_EQ(driver.view().look.page, page);
  }
}

TEST(Desk, TypeAndSurroundHaveTheirEnds) {
  fixtures::DeskDriver driver;
  EXPECT_FALSE(driver.desk().typeIsOld());
  for (int i = 0; i < 20; ++i) driver.key(Do::TextLarger);
  EXPECT_FLOAT_EQ(driver.view().look.text, 3);
  EXPECT_TRUE(driver.desk().typeIsOld());
  for (int i = 0; i < 20; ++i) driver.key(Do::TextSmaller);
  EXPECT_FLOAT_EQ(driver.view().look.text, 1);
  driver.key(Do::SurroundDarker);
  driver.key(Do::SurroundDarker);
  EXPECT_EQ(driver.view().look.surround, Surround::Dark);
  for (int i = 0; i < 3; ++i) driver.key(Do::SurroundLighter);
  EXPECT_EQ(driver.view().look.surround, Surround::Light);
}

TEST(Desk, TheBarDoesWhatItSays) {
  fixtures::DeskDriver driver;
  driver.key(Do::Undo);
  EXPECT_TRUE(driver.all<act::Undo>().empty());  // there is nothing to undo
  driver.state.can_undo = driver.state.can_redo = true;
  driver.key(Do::Undo);
  EXPECT_EQ(driver.all<act::Undo>().size(), 1u);
  driver.key(Do::Redo);
  EXPECT_EQ(driver.all<act::Redo>().size(), 1u);
  driver.key(Do::OpenPhoto);
  EXPECT_EQ(driver.view().browser.asking, Asking::Photo);
  EXPECT_EQ(driver.all<act::ListFolder>().size(), 1u);
  driver.key(kKeyEscape);
  EXPECT_EQ(driver.view().browser.asking, Asking::Nothing);
  driver.key(Do::Quit);
  EXPECT_TRUE(driver.view().quit);
}

TEST(Desk, ANoticeStaysUntilItIsPutAway) {
  fixtures::DeskDriver driver;
  driver.state.notice = {"The file is no picture.", true, 1};
  driver.frames(2);
  driver.key(Do::HideNotice);
  EXPECT_EQ(driver.all<act::HideNotice>().size(), 1u);
  driver.state.notice.sentence.clear();
  driver.key(Do::HideNotice);
  EXPECT_EQ(driver.all<act::HideNotice>().size(), 1u);
}

TEST(Desk, EscapeLeavesWhatLiesOverThePageBeforeItStopsTheWork) {
  fixtures::DeskDriver driver;
  driver.state.work.what = "Judging the panel";
  driver.key(Do::Keys);
  EXPECT_TRUE(driver.view().keys);
  driver.key(Do::StopWork);
  EXPECT_FALSE(driver.view().keys);
  EXPECT_TRUE(driver.all<act::Stop>().empty());
  driver.key(Do::StopWork);
  EXPECT_EQ(driver.all<act::Stop>().size(), 1u);
}

TEST(Desk, RecentFilesOpenOnTheirPage) {
  fixtures::DeskDriver driver;
  driver.state.recent = {"/shop/panel.jpg", "/shop/teal.json"};
  driver.key(Do::Recent);
  driver.frames(2);
  const auto at = driver.find("##Popup", {"/shop/panel.jpg", "panel.jpg"});
  ASSERT_TRUE(at);
  driver.click(at->x, at->y);
  ASSERT_EQ(driver.all<act::OpenPhotos>().size(), 1u);
  EXPECT_EQ(driver.all<act::OpenPhotos>()[0].files, (std::vector<std::filesystem::path>{"/shop/panel.jpg"}));
}

TEST(Desk, TheBarNeverReachesBeyondTheWindow) {
  for (const float text : {1.0f, 2.0f, 3.0f})
    for (const float width : {1280.0f, 3840.0f}) {
      fixtures::DeskDriver driver(width, 720, text);
      driver.state.can_undo = driver.state.can_redo = true;
      driver.frames(2);
      EXPECT_LE(fixtures::DeskDriver::cutOff("desk"), 1.0f) << text << " " << width;
    }
}

}  // namespace
}  // namespace huewright::desk
