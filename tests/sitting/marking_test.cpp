#include <gtest/gtest.h>

#include "sitting_case.hpp"

namespace huewright {
namespace {

using Marking = fixtures::SittingCase;

TEST_F(Marking, RolesChangePlaces) {
  Sitting sitting = open();
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::Again});
  EXPECT_TRUE(sitting.state().notice.bad);  // there is none to add it to
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
  apply(sitting, act::OpenPhotos{{samples / "changed-over.jpg"}, PhotoRole::ChangedOver});
  ASSERT_EQ(sitting.state().plan.photos.size(), 2u);
  const int other = sitting.state().plan.photos[1].id;
  apply(sitting, act::SetRole{other, PhotoRole::First});
  EXPECT_EQ(firstPhoto(sitting.state().plan)->id, other);
  EXPECT_EQ(sitting.state().plan.photos[0].role, PhotoRole::ChangedOver);
  apply(sitting, act::SetRole{other, PhotoRole::Again});
  EXPECT_TRUE(sitting.state().notice.bad);
  apply(sitting, act::ClosePhoto{other});
  EXPECT_TRUE(sitting.state().plan.photos.empty());  // the others belong to the first
}

TEST_F(Marking, WhereThingsLieIsNotSaidOfARepeat) {
  Sitting sitting = open();
  apply(sitting, act::OpenPhotos{{mat_photo, mat_photo}, PhotoRole::First});
  ASSERT_EQ(sitting.state().plan.photos.size(), 2u);
  const Regions regions = sitting.state().photos[0].regions;
  apply(sitting, act::SetRegions{sitting.state().plan.photos[1].id, regions});
  EXPECT_TRUE(sitting.state().notice.bad);
  EXPECT_FALSE(sitting.state().plan.photos[1].by_hand);
}

}  // namespace
}  // namespace huewright
