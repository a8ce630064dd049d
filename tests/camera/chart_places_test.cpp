// Which grids of a picture show the chart, and that each chart is one place.
#include "camera/chart_places.hpp"

#include <cmath>
#include <filesystem>
#include <gtest/gtest.h>

#include "support/calib.hpp"
#include "support/chart_picture.hpp"

namespace huewright {
namespace {

using fixtures::publishedChart;

constexpr Size kTwoChartsSize{1000, 700};

Mat3 shifted(const Mat3& h, double x, double y) { return h * Mat3{{{{1, 0, x}, {0, 1, y}, {0, 0, 1}}}}; }

/// A small chart at the left, a large one at the right.
struct TwoCharts {
  TwoCharts() {
    picture.lay(fixtures::chartLight(publishedChart()), small);
    picture.lay(fixtures::chartLight(publishedChart()), large);
  }
  Mat3 small = fixtures::chartHomography({.turn = 5, .width = 0.28, .middle = {0.2, 0.5}}, kTwoChartsSize);
  Mat3 large = fixtures::chartHomography({.turn = -8, .tilt = 10, .width = 0.45, .middle = {0.7, 0.5}}, kTwoChartsSize);
  fixtures::ChartPicture picture{kTwoChartsSize, 8};

  std::vector<ChartPlace> places(std::vector<ChartGrid> grids) const { return chartPlaces(picture.preview(0.8, 1.5), grids, publishedChart()); }
};

TEST(ChartPlaces, AreAsManyAsChartsAndTheLargestComesFirst) {
  const TwoCharts two;
  const auto places = two.places({{two.small, 0.82}, {shifted(two.small, 1, 0), 0.82}, {shifted(two.large, 0, -1), 0.82}, {two.large, 0.82}});
  ASSERT_EQ(places.size(), 2u);
  EXPECT_EQ(places[0].grid.homography, two.large);
  EXPECT_EQ(places[1].grid.homography, two.small);
  for (const ChartPlace& place : places) {
    EXPECT_LT(place.match.error, 5);
    EXPECT_GE(place.match.agreeing, 22u);
  }
  EXPECT_GT(signedArea(places[0].outline), signedArea(places[1].outline));
}

TEST(ChartPlaces, OfOnePlaceTheGridThatFitsCounts) {
  const TwoCharts two;
  const auto places = two.places({{shifted(two.large, 1, 0), 0.82}, {two.large, 0.82}, {shifted(two.large, 0, 1), 0.82}});
  ASSERT_EQ(places.size(), 1u);
  EXPECT_EQ(places[0].grid.homography, two.large);
}

TEST(ChartPlaces, GridsFromBehindOrWithoutPatchesAreNone) {
  const TwoCharts two;
  const Mat3 behind = two.large * Mat3{{{{-1, 0, 6}, {0, 1, 0}, {0, 0, 1}}}};
  EXPECT_TRUE(two.places({{behind, 0.82}}).empty());
  EXPECT_TRUE(two.places({{two.large, 0.05}, {two.large, 1.5}}).empty());
  EXPECT_TRUE(two.places({}).empty());
}

TEST(ChartPlaces, APlaceOfTheChartsPlaneIsProjected) {
  // x' = (2x + 1) ÷ (0.5x + 1), y' = (3y − 1) ÷ (0.5x + 1).
  const Point at = onPhoto({{{{2, 0, 1}, {0, 3, -1}, {0.5, 0, 1}}}}, {2, 4});
  EXPECT_NEAR(at.x, 2.5, 1e-12);
  EXPECT_NEAR(at.y, 5.5, 1e-12);
}

}  // namespace
}  // namespace huewright
