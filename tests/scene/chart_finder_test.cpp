#include "scene/chart_finder.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <ctime>
#include <filesystem>
#include <gtest/gtest.h>
#include <limits>
#include <ostream>
#include <random>

#include "scene/homography.hpp"
#include "support/calib.hpp"
#include "support/chart_picture.hpp"
#include "support/mat_picture.hpp"

namespace huewright {
namespace {

using fixtures::ChartLook;
using fixtures::ChartPicture;
using fixtures::ChartPose;
using fixtures::publishedLight;

const std::filesystem::path kRoot = HUEWRIGHT_SOURCE_DIR, kPhotos = kRoot / "../shared/photos";
constexpr Size kChartSize{1200, 900};

double between(std::mt19937_64& random, double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); }

/// The largest distance of a proposal's corners from the right ones, whichever end is its top, as a share of the chart's width.
double off(const Mat3& found, const std::array<Point, 4>& right) {
  double best = std::numeric_limits<double>::infinity();
  const double width = std::hypot(right[0].x - right[1].x, right[0].y - right[1].y);
  for (const std::size_t turn : {0U, 2U}) {
    double worst = 0;
    const std::array<Point, 4> grid{{{0, 0}, {6, 0}, {6, 4}, {0, 4}}};
    for (std::size_t i = 0; i < 4; ++i) {
      const Point at = mapped(found, grid[i]), wanted = right[(i + turn) % 4];
      worst = std::max(worst, std::hypot(at.x - wanted.x, at.y - wanted.y) / width);
    }
    best = std::min(best, worst);
  }
  return best;
}

std::array<Point, 4> placesOf(const Mat3& truth) { return {mapped(truth, {0, 0}), mapped(truth, {6, 0}), mapped(truth, {6, 4}), mapped(truth, {0, 4})}; }

/// The best of all proposals: the colours will choose.
double nearest(const std::vector<GridProposal>& proposals, const std::array<Point, 4>& right) {
  double best = std::numeric_limits<double>::infinity();
  for (const GridProposal& p : proposals) best = std::min(best, off(p.homography, right));
  return best;
}

double cpuSeconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

// With two other seeds 250 of 250 were found at 1500 pixels, the worst corner 0.26 % off (a one-off run).
// Twenty-four of them here; sixty of these seeds were all found.
TEST(FindChartGrids, InTwentyFourPoses) {
  constexpr int kPoses = 24;
  std::mt19937_64 random(11);
  int found = 0;
  double worst = 0, seconds = 0;
  for (int i = 0; i < kPoses; ++i) {
    const ChartPose pose = fixtures::randomChartPose(random, 35);
    const Mat3 truth = fixtures::chartHomography(pose, kChartSize);
    ChartPicture picture(kChartSize, static_cast<std::uint64_t>(i));
    const ChartLook look{i % 3 == 0 ? Vec3{0.85, 0.85, 0.85} : i % 3 == 1 ? Vec3{0.16, 0.16, 0.16} : Vec3{0.025, 0.025, 0.025}, between(random, 0.74, 0.9), 0.35};
    picture.lay(publishedLight(), truth, look);
    picture.fallOff(between(random, 0, 0.3), between(random, 0, 360));
    const Preview preview = picture.preview(between(random, 0.3, 1.6), between(random, 0, 4));
    const double before = cpuSeconds();
    const auto proposals = findChartGrids(preview, 6, 4);
    seconds += cpuSeconds() - before;
    ASSERT_TRUE(proposals);
    const double distance = nearest(*proposals, placesOf(truth));
    if (distance < 0.01) ++found, worst = std::max(worst, distance);
    else GTEST_LOG_(INFO) << "not found: pose " << i << ", tilt " << pose.tilt << ", width " << pose.width << ", " << proposals->size() << " proposals";
    EXPECT_LE(proposals->size(), 24U);
    EXPECT_TRUE(std::ranges::is_sorted(*proposals, std::ranges::greater{}, &GridProposal::score));
  }
  std::printf("found %d of %d, worst corner %.2f %% of the width, %.0f ms each\n", found, kPoses, 100 * worst, 1000 * seconds / kPoses);
  EXPECT_EQ(found, kPoses);
  EXPECT_LT(worst, 0.005);
}

TEST(FindChartGrids, PlacesAreInFullSizePixels) {
  const Mat3 truth = fixtures::chartHomography({.turn = 200, .tilt = 20, .towards = 10}, kChartSize);
  ChartPicture picture(kChartSize, 3);
  picture.lay(publishedLight(), truth);
  Preview preview = picture.preview(0.8, 2);
  preview.scale = 0.25;
  const auto proposals = findChartGrids(preview, 6, 4);
  ASSERT_TRUE(proposals && !proposals->empty());
  const GridProposal& best = proposals->front();
  EXPECT_LT(off(Mat3::diagonal({0.25, 0.25, 1}) * best.homography, placesOf(truth)), 0.005);
  EXPECT_GE(std::ranges::count(best.seen, true), 20);
  EXPECT_NEAR(best.patch_share, 0.82, 0.02);
  EXPECT_GT(best.score, 0.8);
  const Point first = mapped(best.homography, {0.5 * (1 - best.patch_share), 0.5 * (1 - best.patch_share)});
  EXPECT_NEAR(std::hypot(first.x - best.corners.corners[0].x, first.y - best.corners.corners[0].y), 0, 1e-6);
  EXPECT_TRUE(isConvex(best.corners) && signedArea(best.corners) > 0);
}

// A hand or a leaf over a third of it.
TEST(FindChartGrids, WithAThirdHidden) {
  const Mat3 truth = fixtures::chartHomography({.turn = -15, .tilt = 15, .towards = 10}, kChartSize);
  ChartPicture picture(kChartSize, 3);
  picture.lay(publishedLight(), truth);
  picture.cover({{mapped(truth, {-2, -2}), mapped(truth, {2.3, -2}), mapped(truth, {1.6, 6}), mapped(truth, {-2, 6})}}, {0.45, 0.3, 0.22});
  const auto proposals = findChartGrids(picture.preview(0.8, 2), 6, 4);
  ASSERT_TRUE(proposals && !proposals->empty());
  EXPECT_LT(nearest(*proposals, placesOf(truth)), 0.01);
}

// Cut off at the right: the place that is right reaches outside the picture.
TEST(FindChartGrids, WithAColumnOutside) {
  const Mat3 truth = fixtures::chartHomography({.turn = 5, .width = 0.5, .middle = {0.84, 0.5}}, kChartSize);
  ChartPicture picture(kChartSize, 3);
  picture.lay(publishedLight(), truth);
  ASSERT_GT(mapped(truth, {5.5, 2}).x, kChartSize.width);
  const auto proposals = findChartGrids(picture.preview(0.8, 2), 6, 4);
  ASSERT_TRUE(proposals);
  EXPECT_LT(nearest(*proposals, placesOf(truth)), 0.01);
}

TEST(FindChartGrids, NoneInSeventyTwoPicturesWithoutOne) {
  int proposed = 0;
  for (int i = 0; i < 72; ++i) {
    const auto seed = static_cast<std::uint64_t>(i);
    const Preview preview = i % 2 == 0 ? ChartPicture({800, 600}, 1000 + seed).preview(0.8, 2) : fixtures::MatPicture({800, 600}, seed).take(0.8, 2);
    const auto proposals = findChartGrids(preview, 6, 4);
    ASSERT_TRUE(proposals);
    proposed += proposals->empty() ? 0 : 1;
  }
  EXPECT_EQ(proposed, 0);
}

TEST(FindChartGrids, OddPreviews) {
  const auto none = findChartGrids({{20, 500}, 1, std::vector<std::uint8_t>(30000)}, 6, 4);
  EXPECT_TRUE(none && none->empty());
  EXPECT_TRUE(findChartGrids({}, 6, 4));
  for (const auto& wrong : {findChartGrids({{100, 100}, 1, std::vector<std::uint8_t>(100)}, 6, 4), findChartGrids({{40, 40}, 1, std::vector<std::uint8_t>(4800)}, 4, 6),
                            findChartGrids({{40, 40}, 0, std::vector<std::uint8_t>(4800)}, 6, 4)}) {
    ASSERT_FALSE(wrong);
    EXPECT_EQ(wrong.error().code, Code::Internal);
  }
}

// A checkerboard is a lattice of thousands of squares.
TEST(FindChartGrids, ManySquaresTakeNoLonger) {
  Preview board{{1500, 1125}, 1, std::vector<std::uint8_t>(std::size_t{3} * 1500 * 1125)};
  for (std::size_t i = 0; i < board.rgb.size(); ++i) {
    const std::size_t x = i / 3 % 1500, y = i / 3 / 1500;
    board.rgb[i] = (x / 11 + y / 11) % 2 == 0 ? 220 : 30;
  }
  const double before = cpuSeconds();
  EXPECT_TRUE(findChartGrids(board, 6, 4));
  const double seconds = cpuSeconds() - before;
  std::printf("%.0f ms\n", 1000 * seconds);
  EXPECT_LT(seconds, 5);
}

TEST(GridsByHand, AreCorrectedByThePatchesEdges) {
  const Mat3 truth = fixtures::chartHomography({.turn = 70, .tilt = 25, .towards = 10}, kChartSize);
  ChartPicture picture(kChartSize, 3);
  picture.lay(publishedLight(), truth);
  const Preview preview = picture.preview(0.8, 2);
  std::mt19937_64 random(5);
  for (int i = 0; i < 8; ++i) {
    Quad marked;
    for (std::size_t c = 0; c < 4; ++c) {
      const std::array<Point, 4> corners{{{0.09, 0.09}, {5.91, 0.09}, {5.91, 3.91}, {0.09, 3.91}}};
      Point at = corners[i % 2 == 0 ? (c + static_cast<std::size_t>(i / 2)) % 4 : (7 - c - static_cast<std::size_t>(i / 2)) % 4];
      at = {at.x + between(random, -0.25, 0.25), at.y + between(random, -0.25, 0.25)};
      marked.corners[c] = mapped(truth, at);
    }
    const auto proposals = gridsByHand(preview, marked, 6, 4);
    ASSERT_TRUE(proposals) << i;
    ASSERT_FALSE(proposals->empty());
    EXPECT_LT(off(proposals->front().homography, placesOf(truth)), 0.005) << i;
    EXPECT_GT(proposals->front().score, 0.7);
  }
}

// Patches that are seen too badly for the finder: half of them covered by dark tape, so that the marks must do.
TEST(GridsByHand, TheMarksCountWhereNothingIsFound) {
  const Mat3 truth = fixtures::chartHomography({.turn = 12, .tilt = 10, .towards = 10}, kChartSize);
  auto patches = publishedLight();
  for (std::size_t i = 0; i < 24; ++i)
    if ((i / 6 + i % 6) % 2 == 0) patches[i] = {0.03, 0.03, 0.03};
  ChartPicture picture(kChartSize, 3);
  picture.lay(patches, truth);
  const Quad marked{{mapped(truth, {0.13, 0.05}), mapped(truth, {5.88, 0.12}), mapped(truth, {5.93, 3.93}), mapped(truth, {0.06, 3.86})}};
  const auto proposals = gridsByHand(picture.preview(0.8, 2), marked, 6, 4);
  ASSERT_TRUE(proposals && !proposals->empty());
  EXPECT_LT(off(proposals->front().homography, placesOf(truth)), 0.006);
}

TEST(GridsByHand, RefuseWhatCannotBeAGrid) {
  const Preview preview = ChartPicture(kChartSize, 3).preview(0, 0);
  const auto crossed = gridsByHand(preview, {{{{100, 100}, {500, 400}, {500, 100}, {100, 400}}}}, 6, 4);
  ASSERT_FALSE(crossed);
  EXPECT_EQ(crossed.error().code, Code::RegionFolded);
  const auto tiny = gridsByHand(preview, {{{{100, 100}, {140, 100}, {140, 120}, {100, 120}}}}, 6, 4);
  ASSERT_FALSE(tiny);
  EXPECT_EQ(tiny.error().code, Code::RegionTooSmall);
}

struct Marked {
  const char* file;
  std::array<Point, 4> field;  // of tests/judge/real_photos_test.cpp: marked by hand, good to about 5 pixels; the chart lies on its side
};

void PrintTo(const Marked& marked, std::ostream* out) { *out << marked.file; }

class ChartGridsInPhotos : public testing::TestWithParam<Marked> {};

TEST_P(ChartGridsInPhotos, LieWhereTheyWereMarked) {
  const Marked& marked = GetParam();
  if (!std::filesystem::exists(kPhotos / marked.file)) GTEST_SKIP() << "skipped: no ../shared";
  auto photo = Photo::open(kPhotos / marked.file);
  ASSERT_TRUE(photo);
  const auto preview = photo->preview(1500);
  ASSERT_TRUE(preview);
  const auto proposals = findChartGrids(*preview, 6, 4);
  ASSERT_TRUE(proposals && !proposals->empty());
  const auto& [a, b, c, d] = marked.field;  // upper left, upper right, lower right, lower left
  const double distance = off(proposals->front().homography, {d, a, b, c});
  std::printf("%s: corners within %.2f %% of the chart's width, %.2f pixels (sd) about the homography\n", marked.file, 100 * distance, proposals->front().sd);
  // One percent, and the 5 pixels to which the marks are good.
  EXPECT_LT(distance, 0.01 + 5 / std::hypot(a.x - d.x, a.y - d.y));
}

INSTANTIATE_TEST_SUITE_P(Marks, ChartGridsInPhotos,
                         testing::Values(Marked{"chart-01.jpg", {{{383, 313}, {1112, 272}, {1188, 1408}, {413, 1437}}}},
                                         Marked{"chart-02.jpg", {{{469, 383}, {1189, 307}, {1195, 1563}, {311, 1490}}}},
                                         Marked{"chart-03.jpg", {{{585, 465}, {1264, 501}, {1228, 1487}, {593, 1537}}}},
                                         Marked{"chart-04.jpg", {{{617, 528}, {1233, 576}, {1292, 1547}, {637, 1608}}}},
                                         Marked{"chart-05.jpg", {{{365, 496}, {1050, 403}, {1111, 1527}, {442, 1506}}}}),
                         [](const auto& at) { return "Photo" + std::string(at.param.file).substr(6, 2); });

}  // namespace
}  // namespace huewright
