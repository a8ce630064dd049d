#include "scene/marker_search.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

namespace huewright {
namespace {

// Id 0 and id 1 of OpenCV 4.6's DICT_4X4_1000.
MatMarker marker(int id) {
  using Rows = std::array<std::array<bool, 4>, 4>;
  constexpr Rows kZero{{{1, 0, 1, 1}, {0, 1, 0, 1}, {0, 0, 1, 1}, {0, 0, 1, 0}}}, kOne{{{0, 0, 0, 0}, {1, 1, 1, 1}, {1, 0, 0, 1}, {1, 0, 1, 0}}};
  return {id, 0, 0, 20, id == 0 ? kZero : kOne};
}

constexpr Size kDrawingSize{200, 160};

struct Drawing {
  std::vector<std::uint8_t> levels = std::vector<std::uint8_t>(std::size_t{200} * 160, 220);

  /// Upright, with cells of whole pixels.
  void put(const MatMarker& m, int left, int top, int cell, bool mirrored = false, int black = 30) {
    for (int y = 0; y < 6 * cell; ++y)
      for (int x = 0; x < 6 * cell; ++x) {
        const int row = y / cell - 1, column = (mirrored ? 6 * cell - 1 - x : x) / cell - 1;
        const bool white = row >= 0 && row < 4 && column >= 0 && column < 4 && m.white[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)];
        if (!white) at(left + x, top + y) = static_cast<std::uint8_t>(black);
      }
  }
  std::uint8_t& at(int x, int y) { return levels[static_cast<std::size_t>(y) * 200 + static_cast<std::size_t>(x)]; }
  GreyView view() const { return {kDrawingSize, levels}; }
};

std::array<Point, 4> markerCornersAt(double left, double top, double side) {
  return {{{left, top}, {left + side, top}, {left + side, top + side}, {left, top + side}}};
}

TEST(SearchMarkers, FindsEachWithItsCorners) {
  Drawing drawing;
  drawing.put(marker(1), 20, 30, 9);
  drawing.put(marker(0), 110, 60, 10);
  const std::vector<MatMarker> wanted{marker(0), marker(1)};
  const auto seen = searchMarkers(drawing.view(), wanted, SearchEffort::Quick);
  ASSERT_EQ(seen.size(), 2U);
  EXPECT_EQ(seen[0].id, 0);
  EXPECT_EQ(seen[1].id, 1);
  const auto first = markerCornersAt(110, 60, 60), second = markerCornersAt(20, 30, 54);
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(seen[0].corners[i].x, first[i].x, 0.15);
    EXPECT_NEAR(seen[0].corners[i].y, first[i].y, 0.15);
    EXPECT_NEAR(seen[1].corners[i].x, second[i].x, 0.15);
    EXPECT_NEAR(seen[1].corners[i].y, second[i].y, 0.15);
  }
  EXPECT_FALSE(seen[0].mirrored || seen[0].rough);
  EXPECT_TRUE(searchMarkers(drawing.view(), {}, SearchEffort::Thorough).empty());
}

TEST(SearchMarkers, OneInAMirrorRunsTheOtherWayRound) {
  Drawing drawing;
  drawing.put(marker(0), 60, 40, 10, true);
  const std::vector<MatMarker> wanted{marker(0)};
  const auto seen = searchMarkers(drawing.view(), wanted, SearchEffort::Quick);
  ASSERT_EQ(seen.size(), 1U);
  EXPECT_TRUE(seen[0].mirrored);
  EXPECT_NEAR(seen[0].corners[0].x, 120, 0.15);  // its own top left is at the right
  EXPECT_NEAR(seen[0].corners[0].y, 40, 0.15);
  EXPECT_NEAR(seen[0].corners[1].x, 60, 0.15);
  EXPECT_NEAR(seen[0].corners[2].y, 100, 0.15);
}

TEST(SearchMarkers, OthersAreNotFound) {
  Drawing drawing;
  drawing.put(marker(1), 60, 40, 10);
  const std::vector<MatMarker> wanted{marker(0)};
  EXPECT_TRUE(searchMarkers(drawing.view(), wanted, SearchEffort::Thorough).empty());
}

// Twenty levels between black and white are a stain on the paper, not ink.
TEST(SearchMarkers, EachIsHeldAgainstItsPattern) {
  Drawing drawing;
  drawing.put(marker(0), 60, 40, 10, false, 200);
  const std::vector<MatMarker> wanted{marker(0)};
  EXPECT_TRUE(searchMarkers(drawing.view(), wanted, SearchEffort::Thorough).empty());
}

TEST(MarksAgree, OnlyWithItsOwnPatternTheRightWayUp) {
  Drawing drawing;
  drawing.put(marker(0), 60, 40, 10);
  SeenMarker seen{0, markerCornersAt(60, 40, 60)};
  EXPECT_TRUE(marksAgree(drawing.view(), seen, marker(0)));
  EXPECT_FALSE(marksAgree(drawing.view(), seen, marker(1)));
  std::ranges::rotate(seen.corners, seen.corners.begin() + 1);
  EXPECT_FALSE(marksAgree(drawing.view(), seen, marker(0)));
  seen.corners = markerCornersAt(75, 40, 60);  // beside it
  EXPECT_FALSE(marksAgree(drawing.view(), seen, marker(0)));
}

TEST(MarksAgree, NeedsContrastAndWhiteRoundIt) {
  const SeenMarker seen{0, markerCornersAt(60, 40, 60)};
  Drawing faint;
  faint.put(marker(0), 60, 40, 10, false, 200);
  EXPECT_FALSE(marksAgree(faint.view(), seen, marker(0)));
  Drawing dark;  // a marker on a dark ground is none of ours
  dark.levels.assign(dark.levels.size(), 40);
  dark.put(marker(0), 60, 40, 10);
  for (int y = 0; y < 4; ++y)
    for (int x = 0; x < 4; ++x)
      if (marker(0).white[static_cast<std::size_t>(y)][static_cast<std::size_t>(x)])
        for (int v = 0; v < 10; ++v)
          for (int u = 0; u < 10; ++u) dark.at(70 + 10 * x + u, 50 + 10 * y + v) = 220;
  EXPECT_FALSE(marksAgree(dark.view(), seen, marker(0)));
}

TEST(MarksAgree, AShadowsEdgeAndASmallGlintDoNoHarm) {
  const SeenMarker seen{0, markerCornersAt(60, 40, 60)};
  Drawing drawing;
  drawing.put(marker(0), 60, 40, 10);
  for (int y = 0; y < kDrawingSize.height; ++y)
    for (int x = 0; x < 88 + y / 8; ++x) drawing.at(x, y) = static_cast<std::uint8_t>(drawing.at(x, y) * 0.55);
  EXPECT_TRUE(marksAgree(drawing.view(), seen, marker(0)));
  for (int y = 72; y < 78; ++y)
    for (int x = 112; x < 118; ++x) drawing.at(x, y) = 255;  // in a black cell of the border
  EXPECT_TRUE(marksAgree(drawing.view(), seen, marker(0)));
}

}  // namespace
}  // namespace huewright
