#include <gtest/gtest.h>

#include "live_case.hpp"
#include "session/tagged_photo.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;
using std::chrono::milliseconds;

class Following : public fixtures::SittingCase {
 protected:
  void SetUp() override {
    fixtures::SittingCase::SetUp();
    fs::create_directory(photos);
  }
  Sitting openQuick(const fs::path& memory = {}) const {
    SittingDevices devices;
    devices.folder = {milliseconds(20), milliseconds(40), milliseconds(50)};
    auto sitting = Sitting::open({HUEWRIGHT_SOURCE_DIR "/calib", HUEWRIGHT_SOURCE_DIR "/sample-images", memory}, {}, devices);
    if (!sitting) throw std::runtime_error(sentence(sitting.error()));
    return std::move(*sitting);
  }
  static bool arrive(Sitting& sitting, std::size_t count) {
    return fixtures::comes([&] {
      sitting.poll();
      return sitting.state().arrivals.size() >= count;
    });
  }

  const fixtures::TempDir dir;
  const fs::path photos = dir.path() / "photos";
};

TEST_F(Following, PhotosComeTheNewestFirstAndOpenAsTheyWereJudged) {
  Sitting sitting = openQuick();
  Choices choices = sprayed(sitting);
  choices.grey_y = 0.19;
  apply(sitting, act::SetChoices{choices, false});
  sitting.apply(act::FollowFolder{photos});
  EXPECT_TRUE(sitting.state().followed.running);
  fs::copy_file(mat_photo, photos / "first.jpg");
  ASSERT_TRUE(arrive(sitting, 1)) << sitting.state().followed.trouble;
  fs::copy_file(samples / "there.jpg", photos / "second.jpg");  // no mat in it
  ASSERT_TRUE(arrive(sitting, 2));
  const auto& arrivals = sitting.state().arrivals;
  EXPECT_EQ(arrivals[0].name, "second.jpg");
  EXPECT_TRUE(arrivals[0].problem);
  EXPECT_EQ(arrivals[1].name, "first.jpg");
  EXPECT_NE(arrivals[0].id, arrivals[1].id);
  const Arrival first = arrivals[1];
  EXPECT_TRUE(sitting.state().followed.came_last);
  apply(sitting, act::OpenPhotos{{first.file}, PhotoRole::First, true});
  ASSERT_TRUE(sitting.state().judged) << sitting.state().judge_trouble;
  EXPECT_EQ(sitting.state().judged->panels[sitting.state().judged->main].headline, first.headline);
  EXPECT_EQ(sitting.state().plan.choices.mixes.size(), 3u);
  EXPECT_FALSE(sitting.state().followed.came_last);
  sitting.apply(act::UnfollowFolder{});
  EXPECT_FALSE(sitting.state().followed.running);
}

TEST_F(Following, PhotosAreFiledByTheirTags) {
  const fs::path memory = dir.path() / "sitting.json";
  {
    Sitting sitting = openQuick(memory);
    Choices choices = sprayed(sitting);  // of another panel
    choices.grey_y = 0.19;
    apply(sitting, act::SetChoices{choices, false});
    sitting.apply(act::FileByTags{true});
    sitting.apply(act::FollowFolder{photos});
    fixtures::shootTagged(photos / "tagged.png", {{"frame 1", TagParts{1, 4}, 3, 5}, {"frame 2", TagParts{1, 3}, 4, 5}});
    ASSERT_TRUE(arrive(sitting, 1)) << sitting.state().followed.trouble;
    const Arrival came = sitting.state().arrivals[0];
    EXPECT_TRUE(came.sentence.ends_with(" It is in the series.")) << came.sentence;
    EXPECT_TRUE(came.by_tags);
    EXPECT_FALSE(came.report);
    ASSERT_TRUE(sitting.state().plan.series);
    ASSERT_EQ(sitting.state().plan.series->panels.size(), 2U);
    EXPECT_EQ(sitting.state().plan.series->panels[0].name, "frame 1");
    EXPECT_EQ(sitting.state().plan.series->panels[0].weak, 4);
    EXPECT_EQ(sitting.state().plan.series->panels[1].coats, 4);
    EXPECT_EQ(sitting.state().undo_words, "keeping a reading");
    apply(sitting, act::Undo{});
    EXPECT_FALSE(sitting.state().plan.series);

    fs::copy_file(mat_photo, photos / "untagged.jpg");
    fixtures::shootTagged(photos / "without-coats.png", {{"frame 3", TagParts{1, 4}, {}, 5}, {"frame 4", TagParts{1, 3}, 4, 5}});
    ASSERT_TRUE(arrive(sitting, 3));
    for (std::size_t i = 0; i < 2; ++i) EXPECT_NE(sitting.state().arrivals[i].sentence.find("It is not in the series: lay a tag"), std::string::npos) << sitting.state().arrivals[i].sentence;
    EXPECT_FALSE(sitting.state().plan.series);

    sitting.apply(act::FileByTags{false});
    fixtures::shootTagged(photos / "later.png", {{"frame 5", TagParts{1, 4}, 3, 5}, {"frame 6", TagParts{1, 3}, 4, 5}});
    ASSERT_TRUE(arrive(sitting, 4));
    EXPECT_EQ(sitting.state().arrivals[0].sentence.find("in the series"), std::string::npos);
    EXPECT_FALSE(sitting.state().plan.series);
    sitting.apply(act::FileByTags{true});
  }
  EXPECT_TRUE(openQuick(memory).state().followed.by_tags);
}

TEST_F(Following, AnotherFolderTakesItsPlace) {
  Sitting sitting = openQuick();
  fs::copy_file(mat_photo, photos / "first.jpg");
  sitting.apply(act::FollowFolder{photos});
  ASSERT_TRUE(arrive(sitting, 1));
  fs::create_directory(dir.path() / "other");
  sitting.apply(act::FollowFolder{dir.path() / "other"});
  EXPECT_TRUE(sitting.state().arrivals.empty());
  fs::copy_file(mat_photo, dir.path() / "other/b.jpg");
  ASSERT_TRUE(arrive(sitting, 1));
  EXPECT_EQ(sitting.state().arrivals[0].file, dir.path() / "other/b.jpg");
}

TEST_F(Following, WhatCannotBeFollowedIsSaid) {
  Sitting sitting = openQuick();
  sitting.apply(act::FollowFolder{dir.path() / "none"});
  ASSERT_TRUE(fixtures::comes([&] {
    sitting.poll();
    return !sitting.state().followed.running;
  }));
  EXPECT_NE(sitting.state().followed.trouble.find("cannot be watched"), std::string::npos);
}

TEST_F(Following, TheFolderIsKeptButFollowedByHandOnly) {
  const fs::path memory = dir.path() / "sitting.json";
  {
    Sitting sitting = openQuick(memory);
    sitting.apply(act::FollowFolder{photos});
  }
  fs::copy_file(mat_photo, photos / "first.jpg");
  Sitting again = openQuick(memory);
  EXPECT_EQ(again.state().followed.folder, photos);
  EXPECT_FALSE(again.state().followed.running);
  std::this_thread::sleep_for(milliseconds(100));
  EXPECT_FALSE(fs::exists(photos / "first.jpg.huewright.txt"));
}

}  // namespace
}  // namespace huewright
