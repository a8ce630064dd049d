#include "camera/chart_reading.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <gtest/gtest.h>

#include "colour/delta_e.hpp"
#include "colour/rgb.hpp"
#include "support/calib.hpp"
#include "support/chart_picture.hpp"
#include "support/fixtures.hpp"

namespace huewright {
namespace {

using fixtures::ChartPicture;
using fixtures::publishedChart;
using fixtures::publishedLight;

constexpr Size kChartPhotoSize{900, 675};

Point place(const Mat3& h, double x, double y) {
  const Vec3 v = h * Vec3{x, y, 1};
  return {v[0] / v[2], v[1] / v[2]};
}

Quad part(const Mat3& h, double left, double top, double right, double bottom) { return {{place(h, left, top), place(h, right, top), place(h, right, bottom), place(h, left, bottom)}}; }

/// Its grid turned by half a turn.
Mat3 halfTurn(const Mat3& h) { return h * Mat3{{{{-1, 0, 6}, {0, -1, 4}, {0, 0, 1}}}}; }

/// A chart on a bench, a little turned and tilted.
struct Simple {
  explicit Simple(std::vector<Vec3> patches = publishedLight(), fixtures::ChartPose pose = {.turn = 12, .tilt = 15, .towards = 60, .width = 0.6}) : truth(fixtures::chartHomography(pose, kChartPhotoSize)) {
    picture.lay(patches, truth);
  }
  Mat3 truth;
  ChartPicture picture{kChartPhotoSize, 5};

  std::expected<ChartReading, ChartRefusal> read(const Mat3& grid, double noise = 1.5) const {
    const auto codes = picture.codes(0.8, noise);
    Photo photo = fixtures::photoOf(kChartPhotoSize, codes);
    const std::array grids{ChartGrid{grid, 0.82}};
    return readChart(photo, {kChartPhotoSize, 1, codes}, grids, publishedChart());
  }
  std::expected<ChartReading, ChartRefusal> read() const { return read(truth); }
};

void expectRefused(const std::expected<ChartReading, ChartRefusal>& read, ChartFault fault, const std::string& words) {
  ASSERT_FALSE(read);
  EXPECT_EQ(static_cast<int>(read.error().fault), static_cast<int>(fault)) << read.error().sentence;
  EXPECT_NE(read.error().sentence.find(words), std::string::npos) << read.error().sentence;
}

TEST(ReadChart, PatchesComeInTheChartsOrderWithTheirColours) {
  const Simple simple;
  for (const bool turned : {false, true}) {
    const auto read = simple.read(turned ? halfTurn(simple.truth) : simple.truth);
    ASSERT_TRUE(read) << read.error().sentence;
    ASSERT_EQ(read->samples.size(), 24U);
    EXPECT_EQ(read->samples[0].name, "dark skin");
    EXPECT_LT(read->error, 1);
    EXPECT_EQ(read->quarter_turns, 0);
    for (std::size_t i = 0; i < 24; ++i) {
      const ChartSample& s = read->samples[i];
      EXPECT_EQ(static_cast<int>(s.state), static_cast<int>(ChartPatchState::Good)) << s.name;
      EXPECT_TRUE(contains(s.quad, place(simple.truth, static_cast<double>(i % 6) + 0.5, static_cast<double>(i / 6) + 0.5)));
      EXPECT_GT(signedArea(s.quad), 0);
      const Lab<D50> drawn = toLab(toXyzD50({publishedLight()[i][0], publishedLight()[i][1], publishedLight()[i][2]}));
      EXPECT_LT(deltaE2000(toLab(s.patch.mean), drawn), 1.0) << s.name;  // codes of 8 bits, noise of 1.5 of them
    }
    const Point first = place(simple.truth, 0.09, 0.09);
    EXPECT_NEAR(std::hypot(read->corners.corners[0].x - first.x, read->corners.corners[0].y - first.y), 0, 1e-6);
  }
}

TEST(ReadChart, ItsTurnIsTold) {
  for (const int quarter : {0, 1, 2, 3}) {
    const Simple simple(publishedLight(), {.turn = 90.0 * quarter + 20, .tilt = 10, .width = 0.4});
    const auto read = simple.read();
    ASSERT_TRUE(read) << read.error().sentence;
    EXPECT_EQ(read->quarter_turns, quarter);
  }
}

TEST(ReadChart, AnotherLightAndCurveAreNoMatter) {
  Simple simple;
  simple.picture.fallOff(0.3, 40);
  simple.picture.develop({0.55, 0.9, 0.95}, 1, 1.2);
  const auto read = simple.read();
  ASSERT_TRUE(read) << read.error().sentence;
  EXPECT_LT(read->error, 4);
}

TEST(ReadChart, NoiseIsNoStain) {
  Simple simple(publishedLight(), {.turn = 12, .tilt = 15, .width = 0.35});
  const auto noisy = simple.read(simple.truth, 25);
  ASSERT_TRUE(noisy) << noisy.error().sentence;
  for (const ChartSample& s : noisy->samples) EXPECT_EQ(static_cast<int>(s.state), static_cast<int>(ChartPatchState::Good)) << s.name;
  simple.picture.cover(part(simple.truth, 1.1, 1.1, 1.9, 1.5), {0.02, 0.02, 0.02});  // half a patch
  const auto stained = simple.read(simple.truth, 25);
  ASSERT_TRUE(stained) << stained.error().sentence;
  EXPECT_EQ(static_cast<int>(stained->samples[7].state), static_cast<int>(ChartPatchState::Covered));
}

TEST(ReadChart, OfSeveralPlacesTheRightOneIsRead) {
  const Simple simple;
  const auto shifted = [&](double x, double y) { return ChartGrid{simple.truth * Mat3{{{{1, 0, x}, {0, 1, y}, {0, 0, 1}}}}, 0.82}; };
  const std::array grids{shifted(1, 0), shifted(0, 1), shifted(-40, 0), ChartGrid{simple.truth * Mat3{{{{0, -1, 5}, {1, 0, -1}, {0, 0, 1}}}}, 0.82}, shifted(0, 0), ChartGrid{{}, 0.82}};
  const auto codes = simple.picture.codes(0.8, 1.5);
  Photo photo = fixtures::photoOf(kChartPhotoSize, codes);
  const auto read = readChart(photo, {kChartPhotoSize, 1, codes}, grids, publishedChart());
  ASSERT_TRUE(read) << read.error().sentence;
  EXPECT_EQ(read->homography, simple.truth);
  expectRefused(readChart(photo, {kChartPhotoSize, 1, codes}, std::span(grids).first(4), publishedChart()), ChartFault::NotItsColours, "A chart-like grid was found, but its colours are not the chart's");
  expectRefused(readChart(photo, {kChartPhotoSize, 1, codes}, {}, publishedChart()), ChartFault::NoGrid, "No chart was found");
}

TEST(ReadChart, MirroredOnesAreRefused) {
  auto patches = publishedLight();
  for (std::size_t row = 0; row < 4; ++row) std::ranges::reverse(patches.begin() + static_cast<std::ptrdiff_t>(6 * row), patches.begin() + static_cast<std::ptrdiff_t>(6 * row + 6));
  const Simple simple(patches);
  expectRefused(simple.read(), ChartFault::Mirrored, "mirrored");
  expectRefused(simple.read(halfTurn(simple.truth)), ChartFault::Mirrored, "mirrored");
}

TEST(ReadChart, PermutedColoursAreRefused) {
  auto patches = publishedLight();
  std::ranges::rotate(patches, patches.begin() + 5);
  expectRefused(Simple(patches).read(), ChartFault::NotItsColours, "not the chart's");
  // Two patches that have changed places.
  for (const auto& [a, b] : {std::pair{0, 10}, std::pair{5, 9}, std::pair{20, 22}, std::pair{12, 15}, std::pair{7, 12}}) {
    patches = publishedLight();
    std::swap(patches[static_cast<std::size_t>(a)], patches[static_cast<std::size_t>(b)]);
    const auto read = Simple(patches).read();
    ASSERT_FALSE(read) << a;
    EXPECT_EQ(static_cast<int>(read.error().fault), static_cast<int>(ChartFault::Hidden)) << read.error().sentence;
  }
}

TEST(ReadChart, CutOffOnesAreNamedBySide) {
  expectRefused(Simple(publishedLight(), {.turn = 0, .width = 0.6, .middle = {0.22, 0.5}}).read(), ChartFault::CutOff, "The chart is cut off at the left");
  expectRefused(Simple(publishedLight(), {.turn = 180, .width = 0.6, .middle = {0.78, 0.5}}).read(), ChartFault::CutOff, "cut off at the right");
  expectRefused(Simple(publishedLight(), {.turn = 90, .width = 0.4, .middle = {0.5, 0.3}}).read(), ChartFault::CutOff, "cut off at the top");
}

TEST(ReadChart, PartlyHiddenOnesAreRefused) {
  Simple third;
  third.picture.cover(part(third.truth, -1, -1, 2.1, 5), {0.45, 0.3, 0.22});
  expectRefused(third.read(), ChartFault::Hidden, "Part of the chart is hidden");
  Simple leaf;
  leaf.picture.cover(part(leaf.truth, 1.3, -1, 2.6, 0.8), {0.2, 0.25, 0.08});  // skin would be taken for light skin
  expectRefused(leaf.read(), ChartFault::Hidden, "Two patches of the chart are covered or stained: light skin and blue sky");
}

TEST(ReadChart, OneCoveredPatchIsLeftOut) {
  for (const double until : {0.4, 1.0}) {  // a third of it, and the whole
    Simple simple;
    simple.picture.cover(part(simple.truth, 2, 1, 2 + until, 2), {0.1, 0.12, 0.1});
    const auto read = simple.read();
    ASSERT_TRUE(read) << until << read.error().sentence;
    EXPECT_EQ(static_cast<int>(read->samples[8].state), static_cast<int>(ChartPatchState::Covered)) << until;
    EXPECT_EQ(std::ranges::count(read->samples, ChartPatchState::Good, &ChartSample::state), 23);
  }
}

TEST(ReadChart, TwoPatchesInGlareAreLeftOutThreeRefused) {
  Simple simple;
  const double patch = std::hypot(place(simple.truth, 3, 2).x - place(simple.truth, 2, 2).x, place(simple.truth, 3, 2).y - place(simple.truth, 2, 2).y);
  simple.picture.glare(place(simple.truth, 1.5, 0.4), 0.3 * patch, 0.25);
  simple.picture.glare(place(simple.truth, 4.5, 2.5), 0.3 * patch, 0.25);
  const auto read = simple.read();
  ASSERT_TRUE(read) << read.error().sentence;
  EXPECT_EQ(static_cast<int>(read->samples[1].state), static_cast<int>(ChartPatchState::Glare));
  EXPECT_EQ(static_cast<int>(read->samples[16].state), static_cast<int>(ChartPatchState::Glare));
  simple.picture.glare(place(simple.truth, 0.5, 2.4), 0.3 * patch, 0.25);
  expectRefused(simple.read(), ChartFault::Glare, "Three patches of the chart are in glare: light skin, blue and magenta");
}

TEST(ReadChart, SmallOnesAreRefused) {
  const Simple simple(publishedLight(), {.width = 0.06});
  expectRefused(simple.read(), ChartFault::TooSmall, "photograph the chart from nearer");
}

/// A file, for what is stored at the top of its range.
std::expected<ChartReading, ChartRefusal> readFile(const Simple& simple) {
  const auto codes = simple.picture.codes(0.8, 1.5);
  fixtures::Picture picture{kChartPhotoSize, {codes.begin(), codes.end()}};
  const fixtures::TempDir folder;
  auto photo = Photo::open(folder.put("chart.png", fixtures::png(picture))).value();
  const std::array grids{ChartGrid{simple.truth, 0.82}};
  return readChart(photo, {kChartPhotoSize, 1, codes}, grids, publishedChart());
}

TEST(ReadChart, BurntOutPatchesAreLeftOutOrRefused) {
  Simple simple;
  simple.picture.develop({1.12, 1.12, 1.12}, 0, 1);
  const auto read = readFile(simple);
  ASSERT_TRUE(read) << read.error().sentence;
  EXPECT_EQ(static_cast<int>(read->samples[18].state), static_cast<int>(ChartPatchState::BurntOut));
  Simple more;
  more.picture.develop({1.9, 1.9, 1.9}, 0, 1);
  expectRefused(readFile(more), ChartFault::BurntOut, "patches of the chart are burnt out: ");
}

// The sensor's own channels, mixed and unbalanced, with a matrix in the file and without.
TEST(ReadChart, CameraRgbIsReadAsItIs) {
  const Simple simple;
  const Mat3 to_camera = Mat3::diagonal({0.5, 1, 0.65}) * Mat3{{{{0.75, 0.3, -0.05}, {0.15, 0.8, 0.05}, {0.02, 0.25, 0.73}}}};
  const auto codes = simple.picture.codes(0.8, 1.5);
  for (const bool builtin : {true, false}) {
    std::vector<float> rgb;
    for (std::size_t i = 0; i < codes.size(); i += 3)
      for (const double v : to_camera * Vec3{srgbToLinear(codes[i] / 255.0), srgbToLinear(codes[i + 1] / 255.0), srgbToLinear(codes[i + 2] / 255.0)}) rgb.push_back(static_cast<float>(v));
    PhotoFacts facts;
    facts.camera_rgb = true;
    facts.balance = Vec3{2, 1, 1 / 0.65};
    if (builtin) facts.builtin = kSrgbToXyzD50 * inverse(to_camera) * Mat3::diagonal({0.5, 1, 0.65});
    Photo photo = Photo::fromMemory(kChartPhotoSize, std::move(rgb), facts);
    const std::array grids{ChartGrid{simple.truth, 0.82}};
    const auto read = readChart(photo, {kChartPhotoSize, 1, codes}, grids, publishedChart());
    ASSERT_TRUE(read) << read.error().sentence;
    EXPECT_LT(read->error, 1);
    for (std::size_t i = 0; i < 24; ++i) {
      const Vec3 wanted = to_camera * publishedLight()[i];
      for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(toVec(read->samples[i].patch.mean)[c], wanted[c], 0.01 * wanted[c] + 0.002) << read->samples[i].name;
    }
  }
}

TEST(ReadChart, OddInputsAreProblems) {
  Photo photo = Photo::fromMemory({10, 10}, std::vector<float>(300));
  const std::array grids{ChartGrid{Mat3::identity(), 0.8}};
  const auto wrong = readChart(photo, {{10, 10}, 1, {}}, grids, publishedChart());
  ASSERT_FALSE(wrong);
  ASSERT_TRUE(wrong.error().problem);
  EXPECT_EQ(wrong.error().problem->code, Code::Internal);
  EXPECT_FALSE(readChart(photo, {{10, 10}, 1, std::vector<std::uint8_t>(300)}, grids, publishedChart()));
  EXPECT_FALSE(readChart(photo, {{10, 10}, 1, std::vector<std::uint8_t>(300)}, grids, {}));
}

/// A small chart at the left and a large one at the right; of the large one patches are covered, or not.
std::expected<ChartReading, ChartRefusal> readTwo(int covered, bool small_too = false) {
  static const Mat3 kSmall = fixtures::chartHomography({.turn = 5, .width = 0.28, .middle = {0.2, 0.5}}, kChartPhotoSize);
  static const Mat3 kLarge = fixtures::chartHomography({.turn = -8, .tilt = 10, .width = 0.45, .middle = {0.7, 0.5}}, kChartPhotoSize);
  ChartPicture picture{kChartPhotoSize, 8};
  picture.lay(publishedLight(), kSmall);
  picture.lay(publishedLight(), kLarge);
  for (int k = 0; k < covered; ++k) picture.cover(part(kLarge, k + 0.1, 1.1, k + 0.9, 1.9), {0.5, 0.5, 0.5});
  for (int k = 0; small_too && k < covered; ++k) picture.cover(part(kSmall, k + 0.1, 2.1, k + 0.9, 2.9), {0.5, 0.5, 0.5});
  const auto codes = picture.codes(0.8, 1.5);
  Photo photo = fixtures::photoOf(kChartPhotoSize, codes);
  const std::array grids{ChartGrid{kSmall, 0.82}, ChartGrid{kLarge, 0.82}};
  return readChart(photo, {kChartPhotoSize, 1, codes}, grids, publishedChart());
}

TEST(ReadChart, OfTwoChartsTheLargerOneIsReadAndTheOtherIsNamed) {
  const auto read = readTwo(0);
  ASSERT_TRUE(read) << read.error().sentence;
  EXPECT_GT(centre(read->corners).x, 0.5 * kChartPhotoSize.width);
  ASSERT_EQ(read->others.size(), 1u);
  EXPECT_LT(centre(read->others[0]).x, 0.3 * kChartPhotoSize.width);
  EXPECT_TRUE(read->passed_over.empty());
}

TEST(ReadChart, WhereTheLargerOneIsSpoiltTheOtherIsReadAndItIsSaidWhy) {
  const auto read = readTwo(3);
  ASSERT_TRUE(read) << read.error().sentence;
  EXPECT_LT(centre(read->corners).x, 0.3 * kChartPhotoSize.width);
  ASSERT_EQ(read->others.size(), 1u);
  EXPECT_GT(centre(read->others[0]).x, 0.5 * kChartPhotoSize.width);
  EXPECT_NE(read->passed_over.find("covered or stained"), std::string::npos) << read->passed_over;
}

TEST(ReadChart, WhereBothAreSpoiltTheLargerOnesFaultIsNamed) {
  expectRefused(readTwo(3, true), ChartFault::Hidden, "Three patches of the chart are covered or stained: orange, purplish blue and moderate red");
}

TEST(ReadChart, OneChartHasNoOthers) {
  const auto read = Simple{}.read();
  ASSERT_TRUE(read);
  EXPECT_TRUE(read->others.empty());
  EXPECT_TRUE(read->passed_over.empty());
}

}  // namespace
}  // namespace huewright
