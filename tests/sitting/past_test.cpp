#include <gtest/gtest.h>

#include "sitting_case.hpp"

namespace huewright {
namespace {

using Past = fixtures::SittingCase;

TEST_F(Past, UndoAndRedoGoThroughEverything) {
  Sitting sitting = open();
  EXPECT_FALSE(sitting.state().can_undo);
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
  apply(sitting, act::SetChoices{sprayed(sitting)});
  const double with_same = sitting.state().judged->panels[0].high;
  apply(sitting, act::AddToSeries{});
  ASSERT_TRUE(sitting.state().plan.series) << sitting.state().notice.sentence;
  EXPECT_EQ(sitting.state().plan.series->panels.size(), 3u);
  EXPECT_EQ(sitting.state().undo_words, "keeping a reading");
  apply(sitting, act::Undo{});
  EXPECT_FALSE(sitting.state().plan.series);
  apply(sitting, act::Undo{});
  EXPECT_TRUE(sitting.state().plan.choices.mixes.empty());
  EXPECT_GT(sitting.state().judged->panels[0].high, with_same);  // the kind of card is not known any more
  apply(sitting, act::Undo{});
  EXPECT_TRUE(sitting.state().plan.photos.empty());
  EXPECT_FALSE(sitting.state().judged);
  EXPECT_FALSE(sitting.state().can_undo);
  for (int i = 0; i < 3; ++i) apply(sitting, act::Redo{});
  EXPECT_FALSE(sitting.state().can_redo);
  EXPECT_EQ(sitting.state().plan.series->panels.size(), 3u);
  EXPECT_EQ(sitting.state().judged->panels[0].high, with_same);
  EXPECT_TRUE(sitting.state().photos[0].preview);
}

TEST_F(Past, ADragIsOneStepBack) {
  Sitting sitting = open();
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
  const int id = sitting.state().shown;
  Regions regions = sitting.state().photos[0].regions;
  ASSERT_FALSE(regions.panels.empty());
  EXPECT_TRUE(sitting.state().photos[0].found);
  for (int i = 0; i < 5; ++i) {
    regions.panels[0].corners[0].x += 1;
    sitting.apply(act::SetRegions{id, regions, "moving a region", i > 0});
  }
  sitting.settle();
  EXPECT_FALSE(sitting.state().photos[0].found);
  EXPECT_EQ(sitting.state().photos[0].regions.panels[0], regions.panels[0]);
  apply(sitting, act::Undo{});
  EXPECT_FALSE(sitting.state().plan.photos[0].by_hand);
  EXPECT_TRUE(sitting.state().photos[0].found);
  apply(sitting, act::Redo{});
  apply(sitting, act::FindRegions{id});
  EXPECT_TRUE(sitting.state().photos[0].found);
}

TEST_F(Past, StopLeavesThePlan) {
  Sitting sitting = open();
  sitting.apply(act::OpenPhotos{{mat_photo}, PhotoRole::First});
  sitting.apply(act::Stop{});
  sitting.settle();
  EXPECT_TRUE(sitting.state().plan.photos.empty());
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
  sitting.apply(act::SetChoices{sprayed(sitting)});
  sitting.apply(act::Stop{});
  sitting.settle();
  EXPECT_FALSE(sitting.state().judging);
  EXPECT_FALSE(sitting.state().plan.choices.mixes.empty());
  EXPECT_FALSE(sitting.state().judged);  // the one that was there is of the plan before
  EXPECT_NE(sitting.state().judge_trouble, "");
  apply(sitting, act::SetChoices{sprayed(sitting)});
  EXPECT_TRUE(sitting.state().judged);
}

}  // namespace
}  // namespace huewright
