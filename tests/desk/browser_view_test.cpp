#include <gtest/gtest.h>

#include "desk/views.hpp"
#include "support/desk_photo.hpp"

namespace huewright::desk {
namespace {

namespace fs = std::filesystem;

struct BrowserTest : testing::Test {
  BrowserTest() {
    fixtures::takeActions(driver);
    FolderShown& f = driver.state.folder;
    f.folder = "/shop/photos";
    f.entries = {{"lamp", true, 0, ""}, {"a.jpg", false, 1000, "2026-11-02 10:00"}, {"b.png", false, 1200, "2026-11-28 14:03"}, {"c.dng", false, 10, "2026-11-05 12:00"}, {"teal.json", false, 10, "2026-11-05 12:00"}};
  }
  void ask(Asking asking) {
    Actions opening;
    askForFile(driver.view(), asking, opening);
    driver.frames(4);
    driver.actions.clear();
  }
  Asking asking() { return driver.view().browser.asking; }
  fixtures::DeskDriver driver;
};

TEST_F(BrowserTest, OpenedByItsKeyAndTheKeyIsNoLetterForIt) {
  ImGui::GetIO().AddInputCharacter('o');
  driver.key(Do::OpenPhoto);
  EXPECT_EQ(asking(), Asking::Photo);
  EXPECT_EQ(driver.view().browser.typed, "");
  driver.key(kKeyEscape);
  EXPECT_EQ(asking(), Asking::Nothing);
  EXPECT_TRUE(driver.all<act::OpenPhotos>().empty());
}

TEST_F(BrowserTest, AFileByItsNameAndEnter) {
  ask(Asking::Photo);
  driver.view().look.page = Page::Mixes;
  driver.type("B");
  driver.key(kKeyEnter);
  const auto opened = driver.all<act::OpenPhotos>();
  ASSERT_EQ(opened.size(), 1u);
  EXPECT_EQ(opened[0].files, (std::vector<fs::path>{"/shop/photos/b.png"}));
  EXPECT_EQ(opened[0].role, PhotoRole::First);
  EXPECT_EQ(asking(), Asking::Nothing);
  EXPECT_EQ(driver.view().look.page, Page::Panel);
}

TEST_F(BrowserTest, SeveralWithShift) {
  ask(Asking::Again);
  driver.key(kKeyDown, false, true);  // from a.jpg, which is at hand
  driver.key(kKeyDown, false, true);
  driver.key(kKeyEnter);
  const auto opened = driver.all<act::OpenPhotos>();
  ASSERT_EQ(opened.size(), 1u);
  EXPECT_EQ(opened[0].role, PhotoRole::Again);
  EXPECT_EQ(opened[0].files, (std::vector<fs::path>{"/shop/photos/a.jpg", "/shop/photos/b.png", "/shop/photos/c.dng"}));
}

TEST_F(BrowserTest, FoldersAreEnteredAndLeft) {
  ask(Asking::Tilted);
  EXPECT_EQ(driver.view().browser.selected, 2);  // a.jpg
  driver.key(kKeyUp);
  driver.key(kKeyEnter);
  ASSERT_EQ(driver.all<act::ListFolder>().size(), 1u);
  EXPECT_EQ(driver.all<act::ListFolder>()[0].folder, "/shop/photos/lamp");
  driver.state.folder.entries.clear();
  driver.frame();
  driver.apply = [&](const Action& action) {
    const auto* list = std::get_if<act::ListFolder>(&action);
    ASSERT_NE(list, nullptr);
    driver.state.folder.folder = list->folder;
    driver.state.folder.entries = {{"heat", true, 0, ""}, {"lamp", true, 0, ""}};
  };
  driver.key(kKeyBackspace);
  ASSERT_EQ(driver.all<act::ListFolder>().size(), 2u);
  EXPECT_EQ(driver.all<act::ListFolder>()[1].folder, "/shop/photos");
  EXPECT_EQ(driver.view().browser.selected, 2);  // the folder one came from, after "up" and "heat"
  EXPECT_EQ(asking(), Asking::Tilted);
}

TEST_F(BrowserTest, KeysOfTheListAndNoOthers) {
  ask(Asking::Photo);
  driver.key(Do::AllFiles);
  EXPECT_TRUE(driver.view().browser.all);
  driver.key(Do::NewestFirst);
  EXPECT_TRUE(driver.view().browser.newest);
  driver.key(Do::LastFile);
  EXPECT_EQ(driver.view().browser.selected, 5);
  driver.type("b");
  driver.key(Do::FolderUp);  // takes the letter, and stays
  EXPECT_EQ(driver.view().browser.typed, "");
  EXPECT_TRUE(driver.all<act::ListFolder>().empty());
  driver.key(Do::Undo);
  driver.key(Do::PageMixes);
  EXPECT_TRUE(driver.actions.empty());
  EXPECT_EQ(driver.view().look.page, Page::Panel);
  driver.key(Do::LeaveFiles);
  EXPECT_EQ(asking(), Asking::Nothing);
  ask(Asking::SaveSeries);
  driver.key(Do::AllFiles);  // works beside the field
  EXPECT_TRUE(driver.view().browser.all);
}

TEST_F(BrowserTest, EveryQuestionGivesItsAction) {
  const auto choose = [&](Asking what) {
    ask(what);
    driver.key(kKeyEnd);
    driver.key(kKeyEnter);
    EXPECT_EQ(asking(), Asking::Nothing);
  };
  choose(Asking::Series);
  ASSERT_EQ(driver.all<act::OpenSeries>().size(), 1u);
  EXPECT_EQ(driver.all<act::OpenSeries>()[0].file, "/shop/photos/teal.json");
  choose(Asking::Tints);
  ASSERT_EQ(driver.all<act::UseTints>().size(), 1u);
  choose(Asking::Profile);
  ASSERT_EQ(driver.all<act::UseProfile>().size(), 1u);
  choose(Asking::Chart);
  ASSERT_EQ(driver.all<act::AddChartPhotos>().size(), 1u);
  EXPECT_EQ(driver.all<act::AddChartPhotos>()[0].files, (std::vector<fs::path>{"/shop/photos/c.dng"}));
  choose(Asking::ChangedOver);
  ASSERT_EQ(driver.all<act::OpenPhotos>().size(), 1u);
  EXPECT_EQ(driver.all<act::OpenPhotos>()[0].role, PhotoRole::ChangedOver);
}

TEST_F(BrowserTest, WritingOverAFileTakesASecondWord) {
  ask(Asking::SaveSeries);
  driver.type("teal");
  EXPECT_EQ(driver.view().browser.typed, "teal");
  driver.key(kKeyEnter);
  EXPECT_TRUE(driver.all<act::SaveSeries>().empty());
  EXPECT_TRUE(driver.view().browser.sure);
  driver.key(kKeyEnter);
  ASSERT_EQ(driver.all<act::SaveSeries>().size(), 1u);
  EXPECT_EQ(driver.all<act::SaveSeries>()[0].file, "/shop/photos/teal.json");
  // An arrow takes the name of a file that is there.
  ask(Asking::SaveSeries);
  driver.key(kKeyDown);
  driver.key(kKeyDown);
  driver.frames(3);
  EXPECT_EQ(driver.view().browser.typed, "teal.json");
  driver.key(kKeyEscape);
  ask(Asking::SaveProfile);
  driver.key(kKeyEnter);
  ASSERT_EQ(driver.all<act::SaveProfile>().size(), 1u);
  EXPECT_EQ(driver.all<act::SaveProfile>()[0].file, "/shop/photos/camera.json");
}

TEST_F(BrowserTest, NothingIsCutOffAtItsEdges) {
  for (const float text : {1.0f, 3.0f}) {
    fixtures::DeskDriver large(1280, 720, text);
    large.state.folder = driver.state.folder;
    large.state.recent = {"/shop/one/x.jpg", "/shop/two/x.jpg", "/shop/a-folder-with-a-long-name-that-has-no-room-anywhere/x.jpg"};
    for (const Asking what : {Asking::Photo, Asking::SaveSeries}) {
      Actions opening;
      askForFile(large.view(), what, opening);
      large.frames(3);
      const float cut = fixtures::DeskDriver::cutOff("browser");
      EXPECT_GT(cut, -1e9f);
      EXPECT_LE(cut, 1.0f) << text;
    }
  }
}

TEST_F(BrowserTest, AFolderIsTakenAsItIsListed) {
  ask(Asking::Follow);
  driver.key(Do::TakeFolder);
  ASSERT_EQ(driver.all<act::FollowFolder>().size(), 1u);
  EXPECT_EQ(driver.all<act::FollowFolder>()[0].folder, "/shop/photos");
  EXPECT_EQ(asking(), Asking::Nothing);
  ask(Asking::Stills);
  driver.key(kKeyDown);
  driver.key(kKeyEnter);  // into lamp
  ASSERT_EQ(driver.all<act::ListFolder>().size(), 1u);
  EXPECT_EQ(driver.all<act::ListFolder>()[0].folder, "/shop/photos/lamp");
  driver.key(Do::TakeFolder);
  EXPECT_EQ(driver.all<act::KeepStills>().size(), 1u);
  ask(Asking::Photo);
  driver.key(Do::TakeFolder);
  EXPECT_EQ(asking(), Asking::Photo);
}

}  // namespace
}  // namespace huewright::desk
