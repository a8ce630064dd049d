#include <gtest/gtest.h>

#include <fstream>

#include "sitting_case.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;

using Keeping = fixtures::SittingCase;

TEST_F(Keeping, NothingIsLostWhenItIsKilled) {
  const fixtures::TempDir dir;
  const fs::path memory = dir.path() / "state/sitting.json";
  {
    Sitting sitting = open(memory);
    apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
    apply(sitting, act::SetChoices{sprayed(sitting)});
    apply(sitting, act::AddToSeries{});
    apply(sitting, act::KeepWindow{{{"text", 2}}});
    // What a kill would leave behind: the file as it is now, not as the destructor writes it.
    fs::copy_file(memory, dir.path() / "killed.json");
  }
  fs::copy_file(dir.path() / "killed.json", memory, fs::copy_options::overwrite_existing);
  Sitting again = open(memory);
  EXPECT_EQ(again.state().plan.photos.size(), 1u);
  EXPECT_EQ(again.state().plan.choices.mixes.at(1).weak, 4);
  ASSERT_TRUE(again.state().plan.series);
  EXPECT_EQ(again.state().plan.series->panels.size(), 3u);
  EXPECT_TRUE(again.state().judged);
  EXPECT_EQ(again.state().window.at("text"), 2);
  EXPECT_EQ(again.state().recent.size(), 1u);
}

// The worker may still be writing an earlier state when a window is closed right after a change.
TEST_F(Keeping, TheLastChangeIsKeptHoweverSoonTheWindowIsClosed) {
  const fixtures::TempDir dir;
  const fs::path memory = dir.path() / "sitting.json";
  for (int i = 1; i <= 40; ++i) {
    {
      Sitting sitting = open(memory);
      for (int text = 0; text < 3; ++text) sitting.apply(act::KeepWindow{{{"text", i + 0.25 * text}}});
    }
    const Sitting again = open(memory);
    ASSERT_EQ(again.state().window.at("text"), i + 0.5);
  }
}

TEST_F(Keeping, AMemoryThatCannotBeReadIsKeptAside) {
  const fixtures::TempDir dir;
  const fs::path memory = dir.path() / "sitting.json";
  std::ofstream(memory) << "{\"format\": 7}";
  {
    const Sitting sitting = open(memory);
    EXPECT_TRUE(sitting.state().notice.bad);
    EXPECT_NE(sitting.state().notice.sentence.find("sitting.json.unreadable"), std::string::npos);
    EXPECT_TRUE(sitting.state().plan.photos.empty());
  }
  std::ifstream in(dir.path() / "sitting.json.unreadable");
  std::string text;
  std::getline(in, text);
  EXPECT_EQ(text, "{\"format\": 7}");
}

TEST_F(Keeping, APhotoThatWasMovedAwaySinceIsSaid) {
  const fixtures::TempDir dir;
  const fs::path memory = dir.path() / "sitting.json", photo = dir.path() / "panel.jpg";
  fs::copy_file(mat_photo, photo);
  {
    Sitting sitting = open(memory);
    apply(sitting, act::OpenPhotos{{photo}, PhotoRole::First});
  }
  fs::remove(photo);
  const Sitting again = open(memory);
  ASSERT_EQ(again.state().photos.size(), 1u);
  EXPECT_NE(again.state().photos[0].trouble, "");
  EXPECT_NE(again.state().judge_trouble, "");
  EXPECT_FALSE(again.state().judged);
}

TEST_F(Keeping, TwoWindowsKeepTheirWorkApartAndNothingIsLost) {
  const fixtures::TempDir dir;
  const fs::path memory = dir.path() / "sitting.json";
  {
    Sitting one = open(memory);
    apply(one, act::KeepWindow{{{"text", 2}}});
    apply(one, act::OpenPhotos{{mat_photo}, PhotoRole::First});
    Sitting two = open(memory);
    EXPECT_TRUE(two.state().notice.bad);
    EXPECT_NE(two.state().notice.sentence.find("sitting-2.json"), std::string::npos) << two.state().notice.sentence;
    EXPECT_TRUE(two.state().plan.photos.empty());
    EXPECT_EQ(two.state().window.at("text"), 2);  // it looks as the first
    apply(two, act::OpenPhotos{{samples / "there.jpg"}, PhotoRole::First});
    apply(one, act::SetChoices{sprayed(one)});
  }
  const Sitting one = open(memory), two = open(memory);
  ASSERT_EQ(one.state().plan.photos.size(), 1u);
  EXPECT_EQ(one.state().plan.photos[0].file, mat_photo);
  EXPECT_EQ(one.state().plan.choices.mixes.size(), 3u);
  EXPECT_EQ(one.state().notice.sentence, "");
  ASSERT_EQ(two.state().plan.photos.size(), 1u);
  EXPECT_EQ(two.state().plan.photos[0].file, samples / "there.jpg");
}

TEST_F(Keeping, TheLastFileThatWasUsedComesFirstAndOnlyOnce) {
  Sitting sitting = open();
  apply(sitting, act::OpenPhotos{{samples / "there.jpg"}, PhotoRole::First});
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
  apply(sitting, act::OpenPhotos{{samples / "there.jpg"}, PhotoRole::First});
  EXPECT_EQ(sitting.state().recent, (std::vector<fs::path>{samples / "there.jpg", mat_photo}));
}

}  // namespace
}  // namespace huewright
