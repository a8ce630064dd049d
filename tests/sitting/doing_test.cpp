#include <gtest/gtest.h>

#include "sitting_case.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;

using Doing = fixtures::SittingCase;

TEST_F(Doing, WhatWasDoneIsToldUntilTheNextThingAndWhatWentWrongUntilItIsPutAway) {
  Sitting sitting = open();
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
  apply(sitting, act::UseAsGround{});
  EXPECT_NE(sitting.state().notice.sentence, "");
  apply(sitting, act::WantMarks{});  // only looks
  EXPECT_NE(sitting.state().notice.sentence, "");
  apply(sitting, act::SetChoices{sprayed(sitting)});
  EXPECT_EQ(sitting.state().notice.sentence, "");
  apply(sitting, act::Redo{});  // there is nothing
  EXPECT_TRUE(sitting.state().notice.bad);
  apply(sitting, act::SetChoices{sprayed(sitting)});
  EXPECT_NE(sitting.state().notice.sentence, "");
  apply(sitting, act::HideNotice{});
  EXPECT_EQ(sitting.state().notice.sentence, "");
}

TEST_F(Doing, FilesAreKnownByTheirWholePaths) {
  Sitting sitting = open();
  apply(sitting, act::OpenPhotos{{fs::relative(mat_photo)}, PhotoRole::First});
  ASSERT_EQ(sitting.state().plan.photos.size(), 1u);
  EXPECT_EQ(sitting.state().plan.photos[0].file, mat_photo.lexically_normal());
}

}  // namespace
}  // namespace huewright
