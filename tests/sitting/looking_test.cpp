#include <gtest/gtest.h>

#include "sitting_case.hpp"

namespace huewright {
namespace {

using Looking = fixtures::SittingCase;

TEST_F(Looking, MapMarksAndThePointerFollowTheVerdict) {
  Sitting sitting = open();
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
  EXPECT_FALSE(sitting.state().map);
  apply(sitting, act::WantMap{true});
  apply(sitting, act::WantMarks{true});
  ASSERT_TRUE(sitting.state().map);
  EXPECT_GT(sitting.state().map->top, 0);
  ASSERT_TRUE(sitting.state().marks);
  EXPECT_GE(sitting.state().marks->regions.size(), 3u);
  const Point in = centre(sitting.state().photos[0].regions.panels[0]);
  apply(sitting, act::Probe{sitting.state().shown, in});
  ASSERT_TRUE(sitting.state().probe);
  EXPECT_EQ(sitting.state().probe->lines.size(), 4u);
  apply(sitting, act::Probe{sitting.state().shown, {-5, 3}});
  EXPECT_FALSE(sitting.state().probe);
  apply(sitting, act::SetChoices{sprayed(sitting)});
  EXPECT_TRUE(sitting.state().map);  // drawn anew for the new verdict
  apply(sitting, act::LookClosely{sitting.state().shown});
  ASSERT_TRUE(sitting.state().photos[0].full);
  EXPECT_EQ(sitting.state().photos[0].full->size, sitting.state().photos[0].size);
}

}  // namespace
}  // namespace huewright
