#include "scene/mat_paper.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <gtest/gtest.h>
#include <numeric>

#include "scene/homography.hpp"
#include "support/mat_layouts.hpp"
#include "support/mat_picture.hpp"

namespace huewright {
namespace {

using fixtures::matLayouts;

constexpr Size kPaperSize{3200, 2400};

/// A mat that lies where it is told.
FoundMat placed(const MatLayout& layout, const fixtures::MatPose& pose = {.turn = 20, .tilt = 20, .towards = 50}) {
  return {layout, fixtures::matHomography(layout, pose, kPaperSize), {}, {}, {}, 0};
}

std::vector<WindowState> all(const MatLayout& layout, WindowState state) { return std::vector<WindowState>(layout.windows.size(), state); }

/// The quad on the sheet, millimetres: its bounding rectangle.
MatRect onSheet(const FoundMat& mat, const Quad& quad) {
  const Mat3 back = inverse(mat.homography);
  double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
  for (const Point& corner : quad.corners) {
    const Point p = mapped(back, corner);
    left = std::min(left, p.x), top = std::min(top, p.y), right = std::max(right, p.x), bottom = std::max(bottom, p.y);
  }
  return {left, top, right - left, bottom - top};
}

Point middle(const MatRect& rect) { return {rect.x + rect.width / 2, rect.y + rect.height / 2}; }

/// The gap between two rectangles, 0 when they share some area.
double gapBetween(const MatRect& a, const MatRect& b) {
  const double x = std::max({0.0, b.x - a.x - a.width, a.x - b.x - b.width}), y = std::max({0.0, b.y - a.y - a.height, a.y - b.y - b.height});
  return std::max(x, y);
}

std::vector<MatRect> spotsOf(const FoundMat& mat, std::span<const WindowState> states) {
  std::vector<MatRect> spots;
  for (const Quad& quad : blankPaper(mat, states, kPaperSize)) spots.push_back(onSheet(mat, quad));
  return spots;
}

TEST(BlankPaper, ThereAreEnoughSpotsAllOverTheSheet) {
  for (const MatLayout& layout : matLayouts()) {
    const FoundMat mat = placed(layout);
    for (const WindowState state : {WindowState::Filled, WindowState::Empty}) {
      const auto spots = spotsOf(mat, all(layout, state));
      RecordProperty(layout.name + (state == WindowState::Empty ? "_empty" : "_filled"), static_cast<int>(spots.size()));
      const bool strip = layout.aperture.has_value();
      EXPECT_GE(spots.size(), strip ? 25U : 60U) << layout.name;
      EXPECT_LE(spots.size(), 200U) << layout.name;
      // Every fifth of the sheet across and every third of it down has some.
      for (int part = 0; part < 5; ++part)
        EXPECT_GE(std::ranges::count_if(spots, [&](const MatRect& s) { return static_cast<int>(5 * middle(s).x / layout.width) == part; }),
                  strip ? 2 : 4)
            << layout.name << part;
      for (int part = 0; part < 3; ++part)
        EXPECT_GE(std::ranges::count_if(spots, [&](const MatRect& s) { return static_cast<int>(3 * middle(s).y / layout.height) == part; }), 4)
            << layout.name << part;
    }
  }
}

TEST(BlankPaper, IsClearOfInkAndOfThings) {
  for (const MatLayout& layout : matLayouts())
    for (const WindowState state : {WindowState::Filled, WindowState::Unsure}) {
      const FoundMat mat = placed(layout);
      const auto& areas = layout.areas;
      for (const MatRect& spot : spotsOf(mat, all(layout, state))) {
        const std::string at = layout.name + " " + std::to_string(spot.x) + " " + std::to_string(spot.y);
        EXPECT_GE(std::min({spot.x, spot.y, layout.width - spot.x - spot.width, layout.height - spot.y - spot.height}), 2.99) << at;
        EXPECT_GE(std::min(spot.width, spot.height), 1.99) << at;
        EXPECT_LE(std::max(spot.width, spot.height), 6.01) << at;
        for (const MatMarker& marker : layout.markers) EXPECT_GE(gapBetween(spot, {marker.x, marker.y, marker.side, marker.side}), 2.49) << at;
        for (const Point& dot : layout.dots.centres) EXPECT_GE(gapBetween(spot, {dot.x, dot.y, 0, 0}), layout.dots.diameter / 2 + 2.49) << at;
        for (const MatRect& area : {areas.title, areas.lamp, areas.caution, areas.pictograms, areas.notes})
          EXPECT_GE(gapBetween(spot, area), 2.49) << at;
        for (const MatWindow& window : layout.windows) {
          const MatRect& w = window.place;
          EXPECT_GE(gapBetween(spot, w), 2.99) << at;
          const double tick = layout.ticks.gap + layout.ticks.length;
          for (const double x : {w.x, w.x + w.width})
            for (const double y : {w.y, w.y + w.height}) {
              EXPECT_GE(gapBetween(spot, {x - tick, y, 2 * tick, 0}), 2.39) << at;
              EXPECT_GE(gapBetween(spot, {x, y - tick, 0, 2 * tick}), 2.39) << at;
            }
        }
        if (layout.aperture) {
          EXPECT_GE(gapBetween(spot, *layout.aperture), 2.99) << at;
        }
      }
    }
}

TEST(BlankPaper, ReachesBetweenTheWindows) {
  for (const MatLayout& layout : matLayouts()) {
    if (layout.aperture) continue;
    const FoundMat mat = placed(layout);
    const auto spots = spotsOf(mat, all(layout, WindowState::Filled));
    for (std::size_t i = 0; i + 1 < layout.windows.size(); ++i) {
      const MatRect &left = layout.windows[i].place, &right = layout.windows[i + 1].place;
      if (left.height != right.height) continue;
      const auto between = std::ranges::count_if(spots, [&](const MatRect& s) {
        return s.x > left.x + left.width && s.x + s.width < right.x && s.y > left.y && s.y + s.height < left.y + left.height;
      });
      EXPECT_GE(between, 5) << layout.name << " after window " << i;
    }
  }
}

TEST(BlankPaper, IsFoundInsideEmptyWindowsOnly) {
  for (const MatLayout& layout : matLayouts()) {
    const FoundMat mat = placed(layout);
    for (std::size_t i = 0; i < layout.windows.size(); ++i) {
      auto states = all(layout, WindowState::Filled);
      states[i] = WindowState::Empty;
      const auto spots = spotsOf(mat, states);
      for (std::size_t j = 0; j < layout.windows.size(); ++j) {
        const auto inside = std::ranges::count_if(spots, [&](const MatRect& s) { return closerThan(s, layout.windows[j].place, 0); });
        EXPECT_EQ(inside > 0, i == j) << layout.name << " " << i << " " << j;
      }
    }
    EXPECT_EQ(blankPaper(mat, {}, kPaperSize), blankPaper(mat, all(layout, WindowState::Unsure), kPaperSize)) << layout.name;
  }
}

TEST(BlankPaper, QuadsRunClockwiseInsideThePicture) {
  const MatLayout layout = matLayouts()[0];
  FoundMat mat = placed(layout, {.turn = 30, .tilt = 25, .towards = 100});
  const auto states = all(layout, WindowState::Empty);
  const std::size_t whole = blankPaper(mat, states, kPaperSize).size();
  mat.homography = Mat3{{{{1, 0, -700}, {0, 1, 500}, {0, 0, 1}}}} * mat.homography;
  const auto quads = blankPaper(mat, states, kPaperSize);
  EXPECT_LT(quads.size(), whole);
  EXPECT_GT(quads.size(), whole / 3);
  for (const Quad& quad : quads) {
    EXPECT_TRUE(isConvex(quad) && signedArea(quad) > 0);
    for (const Point& corner : quad.corners) EXPECT_TRUE(corner.x >= 0 && corner.y >= 0 && corner.x <= kPaperSize.width && corner.y <= kPaperSize.height);
  }
}

/// The green codes of the preview's pixels whose centres lie in the quad.
struct Codes {
  int low = 256, high = -1, count = 0;
  double sum = 0;
};
Codes codes(const Preview& preview, const Quad& quad) {
  Codes seen;
  const Rect box = boundingBox(quad);
  for (int y = box.y; y < box.y + box.height; ++y)
    for (int x = box.x; x < box.x + box.width; ++x)
      if (contains(quad, {x + 0.5, y + 0.5})) {
        const auto at = static_cast<std::size_t>(y) * static_cast<std::size_t>(preview.size.width) + static_cast<std::size_t>(x);
        const int code = preview.rgb[3 * at + 1];
        seen = {std::min(seen.low, code), std::max(seen.high, code), seen.count + 1, seen.sum + code};
      }
  return seen;
}

// Seen on a picture: nothing but paper, and nothing but dots.
TEST(BlankPaper, ShowsNothingButPaper) {
  for (const MatLayout& layout : matLayouts()) {
    const FoundMat mat = placed(layout);
    fixtures::MatPicture picture(kPaperSize, 3);
    picture.lay(layout, mat.homography, fixtures::colourful(layout));
    if (layout.aperture) picture.cover(mat.place(*layout.aperture), {0.2, 0.1, 0.1});
    const Preview preview = picture.take(1.5, 0);
    for (const Quad& quad : blankPaper(mat, all(layout, WindowState::Filled), kPaperSize)) {
      const Codes seen = codes(preview, quad);
      ASSERT_GT(seen.count, 9);
      EXPECT_GE(seen.low, 231) << layout.name << " " << onSheet(mat, quad).x << " " << onSheet(mat, quad).y;  // paper of 0.82 is code 233 of sRGB
      EXPECT_LE(seen.high, 235) << layout.name;
    }
  }
}

TEST(DotPlaces, DotsAndThePaperRoundThem) {
  for (const MatLayout& layout : matLayouts()) {
    const FoundMat mat = placed(layout);
    fixtures::MatPicture picture(kPaperSize, 3);
    picture.lay(layout, mat.homography, fixtures::colourful(layout));
    const Preview preview = picture.take(1, 0);
    const auto dots = dotPlaces(mat, kPaperSize);
    ASSERT_EQ(dots.size(), layout.dots.centres.size()) << layout.name;
    for (std::size_t i = 0; i < dots.size(); ++i) {
      const MatRect dot = onSheet(mat, dots[i].dot);
      const Point at = layout.dots.centres[i];
      EXPECT_NEAR(dot.x + dot.width / 2, at.x, 1e-6);
      EXPECT_NEAR(dot.y + dot.height / 2, at.y, 1e-6);
      EXPECT_NEAR(dot.width, 0.55 * layout.dots.diameter, 1e-6);
      const Codes seen = codes(preview, dots[i].dot);  // drawn as 0.3, code 149, on a raster of 0.2 mm, so that its edge may lie a little inward
      EXPECT_NEAR(seen.sum / seen.count, 149, 3) << layout.name << " " << i;
      EXPECT_GE(seen.low, 145) << layout.name << " " << i;
      EXPECT_GE(dots[i].paper.size(), 2U);
      EXPECT_LE(dots[i].paper.size(), 4U);
      for (const Quad& quad : dots[i].paper) {
        EXPECT_GE(codes(preview, quad).low, 229) << layout.name << " " << i;
        EXPECT_LT(std::hypot(onSheet(mat, quad).x - dot.x, onSheet(mat, quad).y - dot.y), 2 * layout.dots.diameter);
      }
    }
  }
}

TEST(DotPlaces, OnlyThoseInsideThePicture) {
  const MatLayout layout = matLayouts()[0];
  FoundMat mat = placed(layout);
  mat.homography = Mat3{{{{1, 0, -1400}, {0, 1, 0}, {0, 0, 1}}}} * mat.homography;
  const auto dots = dotPlaces(mat, kPaperSize);
  EXPECT_GT(dots.size(), 3U);
  EXPECT_LT(dots.size(), layout.dots.centres.size());
  for (const DotPlace& dot : dots)
    for (const Point& corner : dot.dot.corners) EXPECT_GE(corner.x, 0);
}

}  // namespace
}  // namespace huewright
