#include "sitting/plan.hpp"

#include <gtest/gtest.h>

#include <set>

namespace huewright {
namespace {

TEST(Plan, RolesHaveWordsOfTheirOwn) {
  std::set<std::string_view> names, words;
  for (std::size_t i = 0; i < kPhotoRoleCount; ++i) {
    names.insert(photoRoleName(static_cast<PhotoRole>(i)));
    words.insert(photoRoleWords(static_cast<PhotoRole>(i)));
  }
  EXPECT_EQ(names.size(), kPhotoRoleCount);
  EXPECT_EQ(words.size(), kPhotoRoleCount);
}

TEST(Plan, PhotosAreFoundByIdAndRole) {
  Plan plan;
  EXPECT_EQ(firstPhoto(plan), nullptr);
  plan.photos.push_back({3, "again.jpg", PhotoRole::Again, {}});
  plan.photos.push_back({7, "first.jpg", PhotoRole::First, {}});
  ASSERT_NE(firstPhoto(plan), nullptr);
  EXPECT_EQ(firstPhoto(plan)->id, 7);
  ASSERT_NE(photoOf(plan, 3), nullptr);
  EXPECT_EQ(photoOf(plan, 3)->file, "again.jpg");
  EXPECT_EQ(photoOf(plan, 4), nullptr);
}

TEST(Plan, WhereThingsLieIsSaidOnceForAPhotoAndItsRepeats) {
  for (const PhotoRole role : {PhotoRole::First, PhotoRole::OtherLight, PhotoRole::Tilted}) EXPECT_TRUE(takesRegions(role));
  for (const PhotoRole role : {PhotoRole::Again, PhotoRole::ChangedOver}) EXPECT_FALSE(takesRegions(role));
}

}  // namespace
}  // namespace huewright
