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

TEST(LabelPlaces, WhereThereIsNoRoomOneIsLeftOutUnlessItMustBeThere) {
  const PlotBox narrow{10, 10, 60, 5};
  std::vector<LabelWish> wishes = labelsAt({{40, 12}, {40, 12}, {40, 12}, {40, 12}});
  wishes[3].must = true;
  const auto places = placeLabels(wishes, narrow, {}, {});
  ASSERT_EQ(places.size(), 4U);
  for (const std::size_t i : {0U, 1U, 3U}) EXPECT_TRUE(!places[i].left_out && boxInside(places[i].box, narrow)) << i;
  EXPECT_TRUE(places[2].left_out);
  EXPECT_FALSE(boxesOverlap(places[0].box, places[1].box));
  wishes = labelsAt({{15, 12}});
  EXPECT_TRUE(placeLabels(wishes, {10, 10, 8, 2}, {}, {})[0].left_out);
  wishes[0].must = true;
  EXPECT_EQ(placeLabels(wishes, {10, 10, 8, 2}, {}, {})[0].box, (PlotBox{10, 10, 22, 3.2}));
}

// Sixty points close together: those that have a label have it to themselves, and no line runs through another's label.
TEST(LabelPlaces, InACrowdWhatHasALabelIsLegible) {
  std::vector<Point> points;
  std::vector<PlotBox> signs;
  for (int i = 0; i < 60; ++i) {
    points.push_back({40.0 + 8 * (i % 10), 40.0 + 5 * (i / 10)});
    signs.push_back({points.back().x - 2, points.back().y - 2, 4, 4});
  }
  const auto places = placeLabels(labelsAt(points), kLabelRoom, signs, {});
  std::size_t named = 0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (places[i].left_out) continue;
    ++named;
    EXPECT_TRUE(boxInside(places[i].box, kLabelRoom)) << i;
    for (const PlotBox& sign : signs) EXPECT_FALSE(boxesOverlap(places[i].box, sign)) << i;
    for (std::size_t j = 0; j < places.size(); ++j) {
      if (j == i || places[j].left_out) continue;
      EXPECT_FALSE(boxesOverlap(places[i].box, places[j].box)) << i << " " << j;
      if (!places[j].far) continue;
      const Point from = points[j], to = labelTie(places[j].box, from);
      for (double t = 0; t <= 1; t += 1 / 256.0) {
        const Point on{from.x + t * (to.x - from.x), from.y + t * (to.y - from.y)};
        const PlotBox inner{places[i].box.x + 0.01, places[i].box.y + 0.01, places[i].box.width - 0.02, places[i].box.height - 0.02};
        EXPECT_FALSE(boxInside({on.x, on.y, 0, 0}, inner)) << j << " through " << i;
        for (const PlotBox& sign : signs)
          EXPECT_TRUE(std::hypot(sign.x + 2 - from.x, sign.y + 2 - from.y) < 7.4 || !boxInside({on.x, on.y, 0, 0}, {sign.x + 0.01, sign.y + 0.01, sign.width - 0.02, sign.height - 0.02})) << j;
      }
    }
  }
  EXPECT_GT(named, 10U);
  EXPECT_LT(named, 60U);
}

}  // namespace
}  // namespace huewright
