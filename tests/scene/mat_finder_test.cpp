#include "scene/mat_finder.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <gtest/gtest.h>

#include "support/mat_layouts.hpp"
#include "support/mat_picture.hpp"

namespace huewright {
namespace {

using fixtures::MatPicture;
using fixtures::MatPose;
using fixtures::matLayout;
using fixtures::matLayouts;

constexpr Size kFinderSize{1500, 1125}, kSmaller{1100, 825};

/// The largest distance of a window's corner from where it is, as a share of the window's width in the picture.
double worstCorner(const FoundMat& found, const Mat3& truth, double scale = 1) {
  double worst = 0;
  for (std::size_t i = 0; i < found.windows.size(); ++i) {
    const MatRect& w = found.layout.windows[i].place;
    std::array<Point, 4> wanted{{{w.x, w.y}, {w.x + w.width, w.y}, {w.x + w.width, w.y + w.height}, {w.x, w.y + w.height}}};
    for (Point& p : wanted) {
      const Vec3 v = truth * Vec3{p.x, p.y, 1};
      p = {v[0] / v[2] / scale, v[1] / v[2] / scale};
    }
    const auto side = [&](std::size_t a, std::size_t b) { return std::hypot(wanted[a].x - wanted[b].x, wanted[a].y - wanted[b].y); };
    const double width = 0.5 * (side(0, 1) + side(3, 2));
    for (std::size_t c = 0; c < 4; ++c)
      worst = std::max(worst, std::hypot(found.windows[i].corners[c].x - wanted[c].x, found.windows[i].corners[c].y - wanted[c].y) / width);
  }
  return worst;
}

struct Tally {
  int found = 0;
  double worst = 0, largest_sd = 0;
};

/// Poses as a phone would see them: any turn, a bench full of things, blur up to 1.5 pixels, a fall-off of 15 %, noise.
Tally poses(int count, double least_tilt, double most_tilt, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  Tally tally;
  for (int i = 0; i < count; ++i) {
    const MatLayout& sheet = matLayout(std::array{"a4", "letter", "a4-small"}[static_cast<std::size_t>(i) % 3]);
    const MatPose pose = fixtures::randomPose(random, least_tilt, most_tilt);
    const Mat3 truth = fixtures::matHomography(sheet, pose, kFinderSize);
    MatPicture picture(kFinderSize, seed * 1000 + static_cast<std::uint64_t>(i));
    picture.lay(sheet, truth, fixtures::colourful(sheet, static_cast<std::size_t>(i % 9)));
    picture.fallOff(0.15, 360 * fixtures::uniform(random));
    const double blur = 1.5 * fixtures::uniform(random);
    const auto found = findMat(picture.take(blur, 2.5), matLayouts());
    if (!found) {
      GTEST_LOG_(INFO) << "pose " << i << ", tilt " << pose.tilt << ", fill " << pose.fill << ", blur " << blur << ": " << sentence(found.error());
      continue;
    }
    EXPECT_EQ(found->layout.sheet, sheet.sheet);
    ++tally.found;
    const double worst = worstCorner(*found, truth);
    tally.worst = std::max(tally.worst, worst);
    tally.largest_sd = std::max(tally.largest_sd, found->sd);
  }
  return tally;
}

/// A photo of one sheet, turned and tilted a little, with something in every window.
struct Simple {
  explicit Simple(const std::string& name, MatPose pose = {.turn = 25, .tilt = 20, .towards = 60})
      : sheet(matLayout(name)), truth(fixtures::matHomography(sheet, pose, kSmaller)), picture(kSmaller, 6) {
    picture.lay(sheet, truth, fixtures::colourful(sheet));
  }
  const MatLayout& sheet;
  Mat3 truth;
  MatPicture picture;

  Point at(Point mm) const {
    const Vec3 v = truth * Vec3{mm.x, mm.y, 1};
    return {v[0] / v[2], v[1] / v[2]};
  }
  /// A thumb on a marker.
  void hide(std::size_t marker) {
    const MatMarker& m = sheet.markers[marker];
    const double s = m.side, top = m.y - 4, bottom = m.y + s + 4;
    picture.cover({{{at({m.x + 0.4 * s, top}), at({m.x + 0.8 * s, top}), at({m.x + s, bottom}), at({m.x + 0.5 * s, bottom})}}}, {0.5, 0.3, 0.22});
  }
  Result<FoundMat> found(double blur = 0.8) const { return findMat(picture.take(blur, 2.5), matLayouts()); }
};

void expectRefused(const Result<FoundMat>& found, Code code, const std::string& words = {}) {
  ASSERT_FALSE(found);
  EXPECT_EQ(codeName(found.error().code), codeName(code));
  EXPECT_EQ(exitCode(found.error().code), 3);
  EXPECT_NE(sentence(found.error()).find(words), std::string::npos) << sentence(found.error());
}

// Every pose must be found. Window corners came to 0.2 % of the window's width at the worst; 0.5 % is what is promised.
TEST(FindMat, InFortyPosesUpToThirtyDegrees) {
  constexpr int kPoses = 40;
  const Tally tally = poses(kPoses, 0, 30, 1);
  EXPECT_EQ(tally.found, kPoses);
  EXPECT_LT(tally.worst, 0.005);
  EXPECT_LT(tally.largest_sd, 0.2);
}

// So must these. With other seeds, 300 of 300 poses of 0 to 40 degrees were found, all four markers each; the worst corner was 0.18 % off.
TEST(FindMat, InTwentyPosesUpToFortyDegrees) {
  constexpr int kPoses = 20;
  const Tally tally = poses(kPoses, 30, 40, 2);
  EXPECT_EQ(tally.found, kPoses);
  EXPECT_LT(tally.worst, 0.005);
}

TEST(FindMat, EverySheetIsKnownFromItsMarkers) {
  for (const MatLayout& sheet : matLayouts()) {
    const auto found = Simple(sheet.name).found();
    ASSERT_TRUE(found) << sheet.name << ": " << sentence(found.error());
    EXPECT_EQ(found->layout.sheet, sheet.sheet);
    EXPECT_TRUE(found->missed.empty());
    EXPECT_EQ(found->windows.size(), sheet.windows.size());
    EXPECT_EQ(found->aperture.has_value(), sheet.aperture.has_value());
    for (const Quad& window : found->windows) EXPECT_TRUE(isConvex(window) && signedArea(window) > 0);
  }
}

TEST(FindMat, PlacesAreInFullSizePixels) {
  const Simple simple("a4");
  const auto found = findMat(simple.picture.take(0.6, 2, 0.375), matLayouts());
  ASSERT_TRUE(found);
  EXPECT_LT(worstCorner(*found, simple.truth, 0.375), 0.005);
  const MatRect& card = simple.sheet.windows[3].place;
  EXPECT_EQ(found->place(card), found->windows[3]);
  EXPECT_EQ(found->place(Point{card.x, card.y}), found->windows[3].corners[0]);
  EXPECT_NEAR(found->place(Point{0, 0}).x, simple.at({0, 0}).x / 0.375, 2);
}

TEST(FindMat, WithOneMarkerHidden) {
  for (std::size_t hidden = 0; hidden < 4; ++hidden) {
    Simple simple("a4");
    simple.hide(hidden);
    const auto found = simple.found(1.2);
    ASSERT_TRUE(found) << hidden << sentence(found.error());
    EXPECT_EQ(found->missed, std::vector<int>{simple.sheet.markers[hidden].id});
    EXPECT_LT(worstCorner(*found, simple.truth), 0.005);
  }
}

TEST(FindMat, WithMoreHiddenTheyAreNamed) {
  Simple simple("a4-small");
  simple.hide(0);
  simple.hide(2);
  expectRefused(simple.found(), Code::MatMarkers, "The mat's markers at its top left and bottom right were not seen");
  simple.hide(3);
  expectRefused(simple.found(), Code::MatMarkers, "top left, bottom right and bottom left");
  Simple strip("a4-strip");
  strip.hide(1);
  expectRefused(strip.found(), Code::MatMarkers, "The mat's marker at its right was not seen");
}

TEST(FindMat, HalfInTheShade) {
  for (const double left : {0.5, 0.25}) {
    Simple simple("a4");
    simple.picture.shade(simple.at({180, -20}), simple.at({120, 230}), left);
    auto found = simple.found();
    ASSERT_TRUE(found) << left << sentence(found.error());
    EXPECT_LT(worstCorner(*found, simple.truth), 0.005);
    // The edge across a marker.
    Simple across("letter");
    across.picture.shade(across.at({20, -20}), across.at({20, 230}), left);
    found = across.found();
    ASSERT_TRUE(found) << left << sentence(found.error());
    EXPECT_LT(worstCorner(*found, across.truth), 0.005);
  }
}

TEST(FindMat, TwoMatsAreRefused) {
  for (const char* other : {"a4", "a4-small"}) {
    Simple simple("a4", {.turn = 80, .fill = 0.9, .middle = {0.25, 0.5}});
    const MatLayout& second = matLayout(other);
    simple.picture.lay(second, fixtures::matHomography(second, {.turn = 100, .tilt = 10, .fill = 0.9, .middle = {0.75, 0.5}}, kSmaller));
    expectRefused(simple.found(), Code::TwoMats);
  }
}

TEST(FindMat, AMirroredMatIsRefused) {
  for (const char* name : {"a4", "letter", "a4-small", "a4-strip"}) {
    Simple simple(name);
    simple.picture.mirror();
    expectRefused(simple.found(), Code::MatMirrored);
  }
}

TEST(FindMat, WhatIsCutOffIsNamed) {
  Simple right("a4", {.fill = 0.9, .middle = {0.68, 0.5}});
  expectRefused(right.found(), Code::MatMarkers, "top right and bottom right");
  // Turned so that only the bottom right corner is outside, and the window for the black chip next to it.
  const MatLayout& sheet = matLayout("a4");
  Mat3 truth = fixtures::matHomography(sheet, {.turn = -45, .fill = 0.95}, kSmaller);
  const Vec3 chip = truth * Vec3{276.5, 132, 1};
  truth = Mat3{{{{1, 0, kSmaller.width - chip[0] / chip[2]}, {0, 1, 0}, {0, 0, 1}}}} * truth;
  MatPicture picture(kSmaller, 6);
  picture.lay(sheet, truth);
  expectRefused(findMat(picture.take(0.8, 2.5), matLayouts()), Code::MatCut, "outside the picture: Black.");
}

// A corner that stands up shows its marker larger, one that hangs down smaller; a sheet cut up and laid out anew has its markers elsewhere.
TEST(FindMat, ASheetThatIsNotFlatIsRefused) {
  const Simple simple("a4");
  for (const auto& [smaller, aside] : {std::pair{0.0, 6.0}, std::pair{1.0, 0.0}, std::pair{-1.0, 0.0}}) {
    MatLayout torn = simple.sheet;
    torn.markers[2].x += smaller / 2 - aside;
    torn.markers[2].y += smaller / 2;
    torn.markers[2].side -= smaller;
    MatPicture picture(kSmaller, 8);
    picture.lay(torn, simple.truth);
    expectRefused(findMat(picture.take(0.8, 2.5), matLayouts()), Code::MatNotFlat);
  }
}

TEST(FindMat, TwiceTheSameIsTheSame) {
  const Simple simple("letter");
  const Preview preview = simple.picture.take(1, 2.5);
  const auto first = findMat(preview, matLayouts()), second = findMat(preview, matLayouts());
  ASSERT_TRUE(first && second);
  EXPECT_EQ(first->homography, second->homography);
  EXPECT_EQ(first->windows, second->windows);
}

TEST(FindMat, OddPreviewsAreRefused) {
  expectRefused(findMat({{20, 500}, 1, std::vector<std::uint8_t>(30000)}, matLayouts()), Code::MatNotFound);
  expectRefused(findMat({{64, 64}, 1, std::vector<std::uint8_t>(64 * 64 * 3)}, matLayouts()), Code::MatNotFound);
  expectRefused(findMat({}, matLayouts()), Code::MatNotFound);
  expectRefused(findMat(Simple("a4").picture.take(0, 0), {}), Code::MatNotFound);
  const auto wrong = findMat({{100, 100}, 1, std::vector<std::uint8_t>(100)}, matLayouts());
  ASSERT_FALSE(wrong);
  EXPECT_EQ(wrong.error().code, Code::Internal);
}

/// Pictures without a mat, 600 by 450.
Preview matLess(int i) {
  constexpr Size kSmall{600, 450};
  const auto seed = static_cast<std::uint64_t>(i);
  if (i % 4 == 0) return MatPicture(kSmall, seed).take(0.7, 3);
  Preview preview{kSmall, 1, std::vector<std::uint8_t>(std::size_t{3} * 600 * 450)};
  std::mt19937_64 random(seed);
  const double turn = 3 * fixtures::uniform(random), period = 6 + 60 * fixtures::uniform(random);
  for (int y = 0; y < kSmall.height; ++y)
    for (int x = 0; x < kSmall.width; ++x) {
      const double u = std::cos(turn) * x - std::sin(turn) * y, v = std::sin(turn) * x + std::cos(turn) * y;
      const auto cell = [&](double at) { return static_cast<int>(std::floor(at / period)); };
      const auto code = static_cast<unsigned>(cell(u)) * 73856093U ^ static_cast<unsigned>(cell(v)) * 19349663U ^ static_cast<unsigned>(i) * 83492791U;
      const bool white = i % 4 == 1   ? (cell(u) + cell(v)) % 2 == 0                          // a checkerboard
                         : i % 4 == 2 ? cell(u) % 2 == 0 && (i % 8 == 2 || cell(v) % 3 == 0)  // stripes, a grille
                                      : code % 5 < 2;                                        // random squares, like a code
      const double level = (white ? 215 : 35) + 8 * fixtures::uniform(random);
      for (std::size_t c = 0; c < 3; ++c)
        preview.rgb[3 * (static_cast<std::size_t>(y) * 600 + static_cast<std::size_t>(x)) + c] = static_cast<std::uint8_t>(level);
    }
  return preview;
}

TEST(FindMat, NoneInSixtyPicturesWithoutOne) {
  for (int i = 0; i < 60; ++i) EXPECT_FALSE(findMat(matLess(i), matLayouts())) << i;
}

// The same layout with markers of the same dictionary that no sheet has: ids 0 to 3 of OpenCV 4.6's DICT_4X4_1000, as many other sheets have them.
TEST(FindMat, OtherMarkersOfTheDictionaryAreNoMat) {
  constexpr std::array<std::array<const char*, 4>, 4> kOthers{{{"1011", "0101", "0011", "0010"},
                                                               {"0000", "1111", "1001", "1010"},
                                                               {"0011", "0011", "0010", "1101"},
                                                               {"1001", "1001", "0100", "0110"}}};
  MatLayout other = matLayout("a4");
  for (std::size_t m = 0; m < 4; ++m)
    for (std::size_t y = 0; y < 4; ++y)
      for (std::size_t x = 0; x < 4; ++x) other.markers[m].white[y][x] = kOthers[m][y][x] == '1';
  MatPicture picture(kSmaller, 6);
  picture.lay(other, fixtures::matHomography(other, {.turn = 25, .tilt = 20}, kSmaller));
  expectRefused(findMat(picture.take(0.8, 2.5), matLayouts()), Code::MatNotFound);
}

// Somebody else's sheet may have the same markers by chance.
TEST(FindMat, ItsMarkersInAnotherOrderAreNoMat) {
  MatLayout other = matLayout("a4");
  std::swap(other.markers[2].white, other.markers[3].white);
  MatPicture picture(kSmaller, 6);
  picture.lay(other, fixtures::matHomography(other, {.turn = 25, .tilt = 20}, kSmaller));
  expectRefused(findMat(picture.take(0.8, 2.5), matLayouts()), Code::MatNotFound);
}

// Several of them show other people's sheets with ids 0 to 3 of the same dictionary at the corners.
TEST(FindMat, NoneInRealPhotosWithoutOne) {
  const auto folder = std::filesystem::path(HUEWRIGHT_SOURCE_DIR) / "../shared/photos";
  if (!std::filesystem::is_directory(folder)) GTEST_SKIP() << "skipped: no ../shared";
  int looked = 0;
  for (const auto& file : std::filesystem::directory_iterator(folder)) {
    auto photo = Photo::open(file.path());
    if (!photo) continue;  // raw
    const auto preview = photo->preview(1500);
    if (!preview) continue;
    ++looked;
    SCOPED_TRACE(file.path().filename());
    expectRefused(findMat(*preview, matLayouts()), Code::MatNotFound);
  }
  EXPECT_GE(looked, 12);
}

}  // namespace
}  // namespace huewright
