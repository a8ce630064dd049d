#include <gtest/gtest.h>

#include "support/desk_photo.hpp"

namespace huewright::desk {
namespace {

struct StripTest : testing::Test {
  StripTest() {
    fixtures::takeActions(driver);
    fixtures::addPhoto(driver.state, 1, PhotoRole::First);
    fixtures::addPhoto(driver.state, 2, PhotoRole::Again);
    fixtures::addPhoto(driver.state, 3, PhotoRole::OtherLight);
    driver.frames(2);
    driver.actions.clear();
  }
  fixtures::DeskDriver driver;
};

TEST_F(StripTest, EachAddingKeyAsksForItsFile) {
  for (const auto& [what, asking] : {std::pair{Do::AddAgain, Asking::Again}, std::pair{Do::AddChangedOver, Asking::ChangedOver}, std::pair{Do::AddOtherLight, Asking::OtherLight}, std::pair{Do::AddTilted, Asking::Tilted}}) {
    driver.actions.clear();
    driver.key(what);
    EXPECT_EQ(driver.view().browser.asking, asking);
    ASSERT_EQ(driver.all<act::ListFolder>().size(), 1u);
    EXPECT_TRUE(driver.all<act::ListFolder>()[0].folder.empty());
    driver.key(kKeyEscape);
    EXPECT_EQ(driver.view().browser.asking, Asking::Nothing);
  }
}

TEST_F(StripTest, WithoutAFirstPhotoNothingIsAdded) {
  driver.state.plan.photos.clear();
  driver.state.photos.clear();
  driver.state.shown = 0;
  for (const Do what : {Do::AddAgain, Do::AddChangedOver, Do::AddOtherLight, Do::AddTilted, Do::NextPhoto, Do::PreviousPhoto, Do::ClosePhoto}) driver.key(what);
  EXPECT_TRUE(driver.actions.empty());
}

TEST_F(StripTest, NextAndPreviousGoRound) {
  int ids[]{2, 3, 1};
  for (const int id : ids) {
    driver.key(Do::NextPhoto);
    EXPECT_EQ(driver.state.shown, id);
  }
  driver.key(Do::PreviousPhoto);
  EXPECT_EQ(driver.state.shown, 3);
  driver.key(Do::ClosePhoto);
  ASSERT_EQ(driver.all<act::ClosePhoto>().size(), 1u);
  EXPECT_EQ(driver.all<act::ClosePhoto>()[0].id, 3);
}

TEST_F(StripTest, AClickShowsThePhoto) {
  // The pictures of the second and third photo are drawn in the strip only.
  const auto id = reinterpret_cast<std::uintptr_t>(driver.textures.last);
  const auto box = fixtures::DeskDriver::imageBox(reinterpret_cast<TextureId>(id - 1));
  ASSERT_GT(box[2], 0);
  driver.click(0.5 * (box[0] + box[2]), 0.5 * (box[1] + box[3]));
  ASSERT_EQ(driver.all<act::ShowPhoto>().size(), 1u);
  EXPECT_EQ(driver.all<act::ShowPhoto>()[0].id, 2);
}

TEST_F(StripTest, ARightClickOpensAMenuOfRoles) {
  const auto id = reinterpret_cast<std::uintptr_t>(driver.textures.last);
  const auto box = fixtures::DeskDriver::imageBox(reinterpret_cast<TextureId>(id - 1));
  driver.click(0.5 * (box[0] + box[2]), 0.5 * (box[1] + box[3]), 1);
  EXPECT_TRUE(ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopupId | ImGuiPopupFlags_AnyPopupLevel));
  EXPECT_TRUE(driver.all<act::ShowPhoto>().empty());
}

TEST_F(StripTest, TheMenuOfTheShownPhotoHasAKey) {
  driver.key(Do::NextPhoto);
  driver.key(Do::PhotoFor);
  driver.frames(2);
  const auto at = driver.find("##Popup", {std::string(photoRoleWords(PhotoRole::Tilted))});
  ASSERT_TRUE(at);
  driver.click(at->x, at->y);
  const auto set = driver.all<act::SetRole>();
  ASSERT_EQ(set.size(), 1u);
  EXPECT_EQ(set[0].id, 2);
  EXPECT_EQ(set[0].role, PhotoRole::Tilted);
}

}  // namespace
}  // namespace huewright::desk
