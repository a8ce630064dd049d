#include "paper/label_places.hpp"

#include <cmath>
#include <gtest/gtest.h>

namespace huewright {
namespace {

constexpr PlotBox kLabelRoom{10, 10, 150, 90};

std::vector<LabelWish> labelsAt(const std::vector<Point>& points) {
  std::vector<LabelWish> wishes;
  for (const Point& p : points) wishes.push_back({p, 3, 22, 3.2});
  return wishes;
}

TEST(LabelPlaces, BoxesThatTouchDoNotOverlap) {
  EXPECT_FALSE(boxesOverlap({0, 0, 2, 2}, {2, 0, 2, 2}));
  EXPECT_TRUE(boxesOverlap({0, 0, 2, 2}, {1.9, 1.9, 2, 2}));
  EXPECT_TRUE(boxInside({1, 1, 2, 2}, {1, 1, 2, 2}));
  EXPECT_FALSE(boxInside({1, 1, 2.1, 2}, {1, 1, 2, 2}));
}

TEST(LabelPlaces, OneAloneStandsToTheRightOfItsPoint) {
  const auto places = placeLabels(labelsAt({{50, 50}}), kLabelRoom, {}, {});
  ASSERT_EQ(places.size(), 1U);
  EXPECT_NEAR(places[0].box.x, 53, 1e-9);
  EXPECT_NEAR(places[0].box.y + 1.6, 50, 1e-9);
  EXPECT_FALSE(places[0].far);
}

TEST(LabelPlaces, AtTheRightEdgeItStandsToTheLeft) {
  const auto places = placeLabels(labelsAt({{155, 50}}), kLabelRoom, {}, {});
  EXPECT_TRUE(boxInside(places[0].box, kLabelRoom));
  EXPECT_LT(places[0].box.x + places[0].box.width, 155);
}

TEST(LabelPlaces, ManyInOnePlaceAreKeptApart) {
  std::vector<Point> points;
  std::vector<PlotBox> signs;
  for (int i = 0; i < 12; ++i) {
    points.push_back({80 + 3 * std::sin(i), 50 + 3 * std::cos(2 * i)});
    signs.push_back({points.back().x - 2, points.back().y - 2, 4, 4});
  }
  const auto places = placeLabels(labelsAt(points), kLabelRoom, signs, {});
  ASSERT_EQ(places.size(), 12U);
  bool tied = false;
  for (std::size_t i = 0; i < places.size(); ++i) {
    EXPECT_TRUE(boxInside(places[i].box, kLabelRoom)) << i;
    for (std::size_t j = 0; j < i; ++j) EXPECT_FALSE(boxesOverlap(places[i].box, places[j].box)) << i << " " << j;
    for (const PlotBox& sign : signs) EXPECT_FALSE(boxesOverlap(places[i].box, sign)) << i;
    tied = tied || places[i].far;
  }
  EXPECT_TRUE(tied);
}

TEST(LabelPlaces, TheCurveIsLeftFreeWhereItCan) {
  std::vector<Point> curve;
  for (double x = 10; x < 160; x += 1) curve.push_back({x, 50});
  const auto places = placeLabels(labelsAt({{80, 50}}), kLabelRoom, {}, curve);
  EXPECT_TRUE(places[0].box.y > 50 || places[0].box.y + places[0].box.height < 50);
}

TEST(LabelPlaces, WhereThereIsNoRoomNothingIsLeftOut) {
  const PlotBox narrow{10, 10, 24, 5};
  const auto places = placeLabels(labelsAt({{20, 12}, {20, 12}, {20, 12}}), narrow, {}, {});
  ASSERT_EQ(places.size(), 3U);
  for (const LabelPlace& place : places) EXPECT_TRUE(boxInside(place.box, narrow));
  EXPECT_EQ(placeLabels(labelsAt({{15, 12}}), {10, 10, 8, 2}, {}, {})[0].box, (PlotBox{10, 10, 22, 3.2}));
}

}  // namespace
}  // namespace huewright
