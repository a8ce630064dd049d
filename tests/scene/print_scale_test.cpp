#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <gtest/gtest.h>

#include "scene/mat_paper.hpp"
#include "support/mat_layouts.hpp"
#include "support/mat_picture.hpp"

namespace huewright {
namespace {

using fixtures::MatPicture;
using fixtures::MatPose;
using fixtures::matLayout;
using fixtures::matLayouts;

constexpr Size kSheetSize{1500, 1125};
constexpr fixtures::Light kBench{0.25, 0.22, 0.20};

/// The sheet on a page that is so much wider and higher in the sheet's own millimetres; the page's top left corner lies at -by.
MatLayout onPage(MatLayout sheet, double width, double height, Point by) {
  const auto move = [&](MatRect& rect) {
    rect.x += by.x;
    rect.y += by.y;
  };
  for (MatMarker& marker : sheet.markers) marker.x += by.x, marker.y += by.y;
  for (MatWindow& window : sheet.windows) move(window.place);
  for (Point& dot : sheet.dots.centres) dot = {dot.x + by.x, dot.y + by.y};
  for (MatRect* area : {&sheet.areas.title, &sheet.areas.lamp, &sheet.areas.caution, &sheet.areas.pictograms, &sheet.areas.notes}) move(*area);
  sheet.width = width;
  sheet.height = height;
  return sheet;
}

/// A print so many times too large, in the middle of its page or moved off it (mm of paper).
struct Print {
  double scale = 1;
  std::string sheet = "a4", page = "a4";
  Point off{0, 0};
  MatPose pose{.turn = 8, .tilt = 15, .towards = 70};
  std::optional<fixtures::Light> bench = kBench;
};

MatPicture photographed(const Print& print, Mat3& truth) {
  const MatLayout& sheet = matLayout(print.sheet);
  const MatLayout& page = matLayout(print.page);
  const double width = page.page_width / print.scale, height = page.page_height / print.scale;
  const Point by{0.5 * (width - sheet.width) + print.off.x / print.scale, 0.5 * (height - sheet.height) + print.off.y / print.scale};
  truth = fixtures::matHomography(sheet, print.pose, kSheetSize);
  MatPicture picture = print.bench ? MatPicture(kSheetSize, *print.bench) : MatPicture(kSheetSize, 3);
  picture.lay(onPage(sheet, width, height, by), truth * Mat3{{{{1, 0, -by.x}, {0, 1, -by.y}, {0, 0, 1}}}});
  picture.fallOff(0.15, 40);
  return picture;
}

std::optional<PrintScale> scaleOf(const Print& print) {
  Mat3 truth;
  const Preview preview = photographed(print, truth).take(0.8, 2.5);
  const auto found = findMat(preview, matLayouts());
  EXPECT_TRUE(found) << print.scale << " " << print.sheet << " on " << print.page;
  if (!found) return std::nullopt;
  return printScale(preview, *found, matLayouts());
}

// Errors came to 0.1 % at the most.
TEST(PrintScaleOf, IsMeasuredInManyPoses) {
  double worst = 0;
  constexpr std::array kScales{0.97, 0.94, 1.0, 1.03};
  for (const double scale : kScales)
    for (const char* sheet : {"a4", "letter"})
      for (const MatPose& pose : {MatPose{.turn = 0}, MatPose{.turn = 8, .tilt = 15, .towards = 70}, MatPose{.turn = 185, .tilt = 25, .towards = 200},
                                  MatPose{.turn = 30, .tilt = 25, .towards = 0}}) {
        const auto found = scaleOf({scale, sheet, sheet, {0, 0}, pose});
        ASSERT_TRUE(found) << scale << " " << sheet << " turned " << pose.turn;
        EXPECT_NEAR(found->along_width, scale, 0.003) << sheet << " turned " << pose.turn;
        EXPECT_NEAR(found->along_height, scale, 0.003) << sheet << " turned " << pose.turn;
        EXPECT_GT(found->sd, 0.002);
        EXPECT_LT(found->sd, 0.006);
        worst = std::max({worst, std::abs(found->along_width - scale), std::abs(found->along_height - scale)});
      }
  RecordProperty("worst", std::to_string(worst));
}

TEST(PrintScaleOf, OffTheMiddleOfItsPage) {
  for (const Point off : {Point{3, 0}, Point{-4, 3}}) {
    const auto found = scaleOf({.scale = 0.96, .off = off});
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->along_width, 0.96, 0.003);
    EXPECT_NEAR(found->along_height, 0.96, 0.003);
  }
}

TEST(PrintScaleOf, OnAClutteredBench) {
  const auto found = scaleOf({.scale = 0.97, .bench = std::nullopt});
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->along_width, 0.97, 0.003);
  EXPECT_NEAR(found->along_height, 0.97, 0.003);
}

// On the other paper it is not the wrong size for that.
TEST(PrintScaleOf, OnTheOtherPaper) {
  for (const double scale : {1.0, 0.97}) {
    const auto letter = scaleOf({.scale = scale, .sheet = "letter", .page = "a4"});
    const auto a4 = scaleOf({.scale = scale * 0.94, .sheet = "a4", .page = "letter"});
    ASSERT_TRUE(letter && a4) << scale;
    EXPECT_NEAR(letter->along_width, scale, 0.003);
    EXPECT_NEAR(letter->along_height, scale, 0.003);
    EXPECT_NEAR(a4->along_width, scale * 0.94, 0.003);
    EXPECT_NEAR(a4->along_height, scale * 0.94, 0.003);
  }
  Mat3 truth;
  const Preview preview = photographed({.sheet = "letter", .page = "a4"}, truth).take(0.8, 2.5);
  const auto found = findMat(preview, matLayouts());
  ASSERT_TRUE(found);
  EXPECT_FALSE(printScale(preview, *found)) << "no paper known but letter's";
}

TEST(PrintScaleOf, NothingWhereTheEdgesDoNotShow) {
  EXPECT_FALSE(scaleOf({.bench = fixtures::kMatPaper}));                             // a white bench
  EXPECT_FALSE(scaleOf({.bench = fixtures::Light{0.75, 0.75, 0.73}}));               // nearly so
  EXPECT_FALSE(scaleOf({.pose = {.turn = 0, .fill = 1.01}}));                        // the page is cut off at two sides
  EXPECT_FALSE(scaleOf({.sheet = "a4-small", .page = "a4", .pose = {.turn = 0}}));   // cut out of its page
}

// A tool over a fifth of one edge does no harm, one over half of it is too much.
TEST(PrintScaleOf, AThingOverTheEdge) {
  for (const auto& [length, seen] : {std::pair{35.0, true}, std::pair{120.0, false}}) {
    Mat3 truth;
    const Print print{.scale = 0.97};
    MatPicture picture = photographed(print, truth);
    const auto at = [&](double x, double y) {
      const Vec3 v = truth * Vec3{x, y, 1};
      return Point{v[0] / v[2], v[1] / v[2]};
    };
    picture.cover({{{at(-40, 60), at(4, 60), at(4, 60 + length), at(-40, 60 + length)}}}, {0.05, 0.05, 0.05});
    const Preview preview = picture.take(0.8, 2.5);
    const auto found = findMat(preview, matLayouts());
    ASSERT_TRUE(found);
    const auto scale = printScale(preview, *found, matLayouts());
    ASSERT_EQ(scale.has_value(), seen) << length;
    EXPECT_NEAR(scale.value_or(PrintScale{0.97}).along_width, 0.97, 0.003);
  }
}

}  // namespace
}  // namespace huewright
