#include "desk/photo_hand.hpp"

#include <gtest/gtest.h>

namespace huewright::desk {
namespace {

struct HandTest : testing::Test {
  HandTest() {
    photo.id = 3;
    photo.size = {1000, 800};
    photo.regions.panels = {toQuad({100, 100, 200, 200})};
    photo.regions.card = toQuad({300, 100, 200, 200});
    view.photo = 3;
  }
  /// Press at one place, move to the next ones, let go at the last; the sitting takes what is pushed.
  void drag(std::vector<Point> way, PhotoPlace& place) {
    Point before = way.front();
    for (std::size_t i = 0; i < way.size(); ++i) step(way[i], before, i == 0, true, false, place), before = way[i];
    step(before, before, false, false, true, place);
  }
  void step(Point at, Point before, bool pressed, bool held, bool released, PhotoPlace& place) {
    Hand hand;
    hand.pointer = at;
    hand.pulled = {at.x - before.x, at.y - before.y};
    hand.over = true;
    hand.pressed = pressed;
    hand.held = held;
    hand.released = released;
    const std::size_t count = out.size();
    moveHand(view, place, photo, editable, hand, out);
    for (std::size_t i = count; i < out.size(); ++i)
      if (const auto* set = std::get_if<act::SetRegions>(&out[i])) photo.regions = set->regions;
  }
  PhotoShown photo;
  PhotoViewState view;
  Actions out;
  bool editable = true;
};

TEST_F(HandTest, ADragIsOneStepForUndo) {
  PhotoPlace place = placeOf({0, 0, 500, 400}, photo.size, 0, {});
  drag({{100, 100}, {110, 100}, {120, 105}}, place);  // in the panel, at half size
  ASSERT_EQ(out.size(), 2u);
  EXPECT_FALSE(std::get<act::SetRegions>(out[0]).joins);
  EXPECT_TRUE(std::get<act::SetRegions>(out[1]).joins);
  EXPECT_EQ(photo.regions.panels[0], toQuad({140, 110, 200, 200}));
  EXPECT_EQ(view.selected, 0);
}

TEST_F(HandTest, AShakyClickMovesNothing) {
  PhotoPlace place = placeOf({0, 0, 500, 400}, photo.size, 0, {});
  drag({{100, 100}, {101, 101}, {100, 101}}, place);
  EXPECT_TRUE(out.empty());
  EXPECT_EQ(view.selected, 0);
}

TEST_F(HandTest, SharedCornersBelongToTheChosenOne) {
  PhotoPlace place = placeOf({0, 0, 500, 400}, photo.size, 0, {});
  view.selected = 1;
  drag({{150, 50}, {170, 60}}, place);  // the panel's right and the card's left top corner
  EXPECT_EQ(photo.regions.panels[0], toQuad({100, 100, 200, 200}));
  EXPECT_EQ(photo.regions.card->corners[0], (Point{340, 120}));
}

TEST_F(HandTest, ThePhotoIsPulledAlongOnEmptyGround) {
  PhotoPlace place = placeOf({0, 0, 500, 400}, photo.size, 1, {600, 500});
  view.selected = 0;
  const Point under = place.toPhoto({400, 350});
  drag({{400, 350}, {390, 330}, {360, 310}}, place);
  EXPECT_TRUE(out.empty());
  EXPECT_EQ(place.toPhoto({360, 310}), under);
  EXPECT_EQ(view.centre, place.centre);
  EXPECT_EQ(view.selected, 0);  // pulling along lets nothing go
  drag({{400, 350}}, place);
  EXPECT_EQ(view.selected, -1);
}

TEST_F(HandTest, NothingIsDraggedOnAPhotoWithoutRegionsOfItsOwn) {
  editable = false;
  PhotoPlace place = placeOf({0, 0, 500, 400}, photo.size, 0, {});
  drag({{100, 100}, {140, 100}}, place);
  EXPECT_TRUE(out.empty());
  nudge(view, place, photo, false, {1, 0}, 40, false, out);
  EXPECT_TRUE(out.empty());
}

TEST_F(HandTest, EachKindIsDrawn) {
  for (const PartKind kind : {PartKind::Panel, PartKind::Card, PartKind::Grey, PartKind::Black}) {
    PhotoPlace place = placeOf({0, 0, 500, 400}, photo.size, 0, {});
    out.clear();
    view.adding = static_cast<int>(kind) + 1;
    drag({{300, 250}, {350, 300}, {400, 310}}, place);
    ASSERT_EQ(out.size(), 1u);
    EXPECT_EQ(std::get<act::SetRegions>(out[0]).words, wordsOfMarking(kind));
    EXPECT_EQ(view.adding, 0);
    const auto parts = partsOf(photo.regions);
    ASSERT_GE(view.selected, 0);
    EXPECT_EQ(parts[static_cast<std::size_t>(view.selected)].kind, kind);
    EXPECT_EQ(parts[static_cast<std::size_t>(view.selected)].quad, toQuad({600, 500, 200, 120}));
  }
  // Too small a one is no region, and one may try again.
  PhotoPlace place = placeOf({0, 0, 500, 400}, photo.size, 0, {});
  out.clear();
  view.adding = 1;
  drag({{300, 250}, {301, 251}}, place);
  EXPECT_TRUE(out.empty());
  EXPECT_EQ(view.adding, 1);
}

TEST_F(HandTest, ArrowsMoveTheChosenRegionOrThePhoto) {
  PhotoPlace place = placeOf({0, 0, 500, 400}, photo.size, 1, {600, 500});
  view.selected = 1;
  nudge(view, place, photo, true, {-10, 0}, 40, true, out);
  ASSERT_EQ(out.size(), 1u);
  EXPECT_EQ(std::get<act::SetRegions>(out[0]).regions.card, toQuad({290, 100, 200, 200}));
  EXPECT_TRUE(std::get<act::SetRegions>(out[0]).joins);
  view.selected = -1;
  nudge(view, place, photo, true, {1, 0}, 40, false, out);
  EXPECT_EQ(out.size(), 1u);
  EXPECT_EQ(place.centre, (Point{640, 500}));
}

}  // namespace
}  // namespace huewright::desk
