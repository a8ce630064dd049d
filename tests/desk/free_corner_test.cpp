#include "desk/free_corner.hpp"

#include <gtest/gtest.h>

namespace huewright::desk {
namespace {

TEST(FreeCorner, HidesNothingWhereItCan) {
  const Field field{10, 20, 400, 300};
  const Taken in_the_left{{20, 30, 120, 280}}, at_the_right_foot{{300, 200, 100, 110}};
  const struct {
    std::vector<Taken> others;
    double left, top;
  } rows[] = {{{}, 15, 215}, {{in_the_left}, 305, 215}, {{in_the_left, at_the_right_foot}, 305, 25}, {{at_the_right_foot}, 15, 215}};
  for (const auto& row : rows) {
    const Field box = freeCorner(field, 100, 100, 5, row.others).box;
    EXPECT_EQ(box.left, row.left) << row.others.size();
    EXPECT_EQ(box.top, row.top) << row.others.size();
  }
}

TEST(FreeCorner, TheLeastWhereEveryCornerHidesSomethingAndNeverWhatIsPointedAt) {
  const Field field{0, 0, 200, 200};
  const std::vector<Taken> others{{{0, 0, 200, 90}}, {{0, 90, 60, 110}}, {{140, 90, 60, 110}}, {{100, 150, 40, 50}}};
  EXPECT_EQ(freeCorner(field, 100, 100, 0, others).box.left, 0);  // all at the right foot hides more
  const Point pointer{20, 180};
  const Field box = freeCorner(field, 100, 100, 0, others, &pointer).box;
  EXPECT_FALSE(box.holds(pointer));
  EXPECT_EQ(box.left, 100);
  EXPECT_EQ(box.top, 100);
}

TEST(FreeCorner, RatherAGreyIsHiddenThanThePanel) {
  const Field field{0, 0, 200, 100};
  const std::vector<Taken> panel_and_grey{{{0, 0, 60, 100}, 4}, {{100, 0, 100, 100}, 1}};
  const FreeCorner corner = freeCorner(field, 100, 60, 0, panel_and_grey);
  EXPECT_EQ(corner.box.left, 100);
  EXPECT_EQ(corner.hidden, 6000);
}

TEST(FreeCorner, ABoxThatIsTooLargeBeginsWithTheField) {
  const Field box = freeCorner({10, 20, 50, 40}, 100, 100, 8, {}).box;
  EXPECT_EQ(box.left, 10);
  EXPECT_EQ(box.top, 20);
}

TEST(FreeCorner, RegionsAreTakenByTheirBoxesOnTheScreen) {
  const PhotoPlace place = placeOf({100, 50, 400, 300}, {2000, 1500}, 0, {});
  const auto boxes = boxesOf(place, {{PartKind::Card, 0, Quad{{{{100, 200}, {300, 150}, {350, 400}, {80, 380}}}}, "card"}});
  ASSERT_EQ(boxes.size(), 1u);
  const Point low = place.toScreen({80, 150}), high = place.toScreen({350, 400});
  EXPECT_NEAR(boxes[0].box.left, low.x, 1e-9);
  EXPECT_NEAR(boxes[0].box.top, low.y, 1e-9);
  EXPECT_NEAR(boxes[0].box.left + boxes[0].box.width, high.x, 1e-9);
  EXPECT_NEAR(boxes[0].box.top + boxes[0].box.height, high.y, 1e-9);
}

}  // namespace
}  // namespace huewright::desk
