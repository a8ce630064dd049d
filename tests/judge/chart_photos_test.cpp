// Finding a chart and reading it, together: on real photographs, which are not part of the project, and on drawn ones.
#include <algorithm>
#include <array>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <gtest/gtest.h>
#include <optional>
#include <ostream>
#include <random>

#include "camera/chart_reading.hpp"
#include "scene/chart_finder.hpp"
#include "support/calib.hpp"
#include "support/chart_picture.hpp"

namespace huewright {
namespace {

using fixtures::publishedChart;

const std::filesystem::path kRoot = HUEWRIGHT_SOURCE_DIR, kChartPhotos = kRoot / "../shared/photos";

std::expected<ChartReading, ChartRefusal> findAndRead(Photo& photo, const Preview& preview) {
  const auto proposals = findChartGrids(preview, publishedChart().columns, publishedChart().rows).value();
  std::vector<ChartGrid> grids;
  for (const GridProposal& p : proposals) grids.push_back({p.homography, p.patch_share});
  return readChart(photo, preview, grids, publishedChart());
}

struct Expected {
  const char* file;
  std::optional<ChartFault> fault;  // nothing: it is read
  const char* words;                // of the refusal
  int quarter_turns;
  std::size_t left_out;             // at most
};

void PrintTo(const Expected& expected, std::ostream* out) { *out << expected.file; }

// Turns and faults as a person sees them in the photographs.
const Expected kExpected[] = {
    {"chart-01.jpg", {}, "", 3, 0},
    {"chart-02.jpg", {}, "", 3, 0},
    {"chart-03.jpg", {}, "", 3, 0},
    {"chart-04.jpg", {}, "", 3, 0},
    {"chart-05.jpg", {}, "", 3, 0},
    {"chart-06.jpg", {}, "", 1, 0},
    {"chart-07.jpg", {}, "", 0, 1},   // a hand's shadow on the first patch
    {"chart-08.jpg", {}, "", 3, 0},
    {"chart-09.jpg", {}, "", 2, 1},   // a print of the chart: its cyan is another
    {"chart-10.png", {}, "", 1, 1},   // its white is burnt out
    {"chart-11.tif", ChartFault::BurntOut, "Five patches of the chart are burnt out", 0, 0},
    {"chart-12.dng", {}, "", 0, 0},
    {"no-chart-01.jpg", ChartFault::NoGrid, "No chart was found", 0, 0},
    {"no-chart-02.tif", ChartFault::NotItsColours, "its colours are not the chart's", 0, 0},
    {"no-chart-03.jpg", ChartFault::NoGrid, "No chart was found", 0, 0},
    {"cut-chart-01.png", ChartFault::CutOff, "The chart is cut off at the bottom", 0, 0},
    {"hidden-chart-01.png", ChartFault::Hidden, "Part of the chart is hidden", 0, 0},
};

class ChartPhotos : public testing::TestWithParam<Expected> {};

TEST_P(ChartPhotos, AreReadOrRefused) {
  const Expected& expected = GetParam();
  if (!std::filesystem::exists(kChartPhotos / expected.file)) GTEST_SKIP() << "skipped: no ../shared";
  auto photo = Photo::open(kChartPhotos / expected.file);
  ASSERT_TRUE(photo) << sentence(photo.error());
  const auto preview = photo->preview(1500);
  ASSERT_TRUE(preview);
  const auto read = findAndRead(*photo, *preview);
  if (expected.fault) {
    ASSERT_FALSE(read);
    EXPECT_EQ(static_cast<int>(read.error().fault), static_cast<int>(*expected.fault));
    EXPECT_NE(read.error().sentence.find(expected.words), std::string::npos) << read.error().sentence;
    return;
  }
  ASSERT_TRUE(read) << read.error().sentence;
  std::printf("%s: error %.1f\n", expected.file, read->error);
  EXPECT_EQ(read->quarter_turns, expected.quarter_turns);
  EXPECT_LT(read->error, 6);
  EXPECT_LE(24 - static_cast<std::size_t>(std::ranges::count(read->samples, ChartPatchState::Good, &ChartSample::state)), expected.left_out);
}

INSTANTIATE_TEST_SUITE_P(Chart, ChartPhotos, testing::ValuesIn(kExpected), [](const auto& at) {
  std::string name = at.param.file;
  std::erase_if(name, [](char c) { return c == '-' || c == '.'; });
  return name;
});

double between(std::mt19937_64& random, double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); }

// Drawn charts in any turn, tilted to 35°, 12 to 60 % of the width, on a cluttered bench: of a hundred, twenty are mirrored, ten have their patches
// in another order. With another seed, a tenth with two patches changed about as well, 100 of 100 went right (a one-off run).
TEST(ChartPictures, AHundredAreReadOrRefused) {
  constexpr Size kSize{1000, 750};
  constexpr int kPictures = 100;
  std::mt19937_64 random(21);
  const auto light = fixtures::chartLight(publishedChart());
  int read = 0, whole = 0, mirrored = 0, permuted = 0;
  double find_seconds = 0;
  for (int i = 0; i < kPictures; ++i) {
    enum { Whole, Mirrored, Permuted } kind = i % 10 < 7 ? Whole : i % 10 < 9 ? Mirrored : Permuted;
    auto patches = light;
    if (kind == Permuted) std::shuffle(patches.begin(), patches.end(), random);
    fixtures::ChartPicture picture(kSize, static_cast<std::uint64_t>(i));
    const double frame = std::array{0.02, 0.18, 0.85}[static_cast<std::size_t>(i) % 3];
    picture.lay(patches, fixtures::chartHomography(fixtures::randomChartPose(random, 35), kSize), {{frame, frame, frame}, between(random, 0.74, 0.9), 0.35});
    picture.fallOff(between(random, 0, 0.3), between(random, 0, 360));
    picture.develop({between(random, 0.6, 0.95), between(random, 0.7, 0.95), between(random, 0.6, 0.95)}, between(random, 0, 1), between(random, 0.8, 1.3));
    if (kind == Mirrored) picture.mirror();
    const auto codes = picture.codes(between(random, 0.3, 1.6), between(random, 0.5, 4));
    const Preview preview{kSize, 1, codes};
    Photo photo = fixtures::photoOf(kSize, codes);
    const std::clock_t before = std::clock();
    const auto result = findAndRead(photo, preview);
    find_seconds += static_cast<double>(std::clock() - before) / CLOCKS_PER_SEC;
    if (kind == Whole) {
      ++whole;
      if (result) ++read;
      else GTEST_LOG_(INFO) << i << ": " << result.error().sentence;
    } else {
      ASSERT_FALSE(result) << i;
      if (kind == Mirrored) mirrored += result.error().fault == ChartFault::Mirrored ? 1 : 0;
      else permuted += result.error().fault == ChartFault::NotItsColours ? 1 : 0;
    }
  }
  std::printf("read %d of %d; mirrored %d; permuted %d; %.0f ms each\n", read, whole, mirrored, permuted, 1000 / kPictures * find_seconds);
  EXPECT_GE(read, whole - 1);
  EXPECT_EQ(mirrored, kPictures / 5);
  EXPECT_EQ(permuted, kPictures / 10);
}

}  // namespace
}  // namespace huewright
