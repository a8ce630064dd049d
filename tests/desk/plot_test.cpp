#include "desk/plot.hpp"

#include <gtest/gtest.h>

#include "desk_frames.hpp"

namespace huewright::desk {
namespace {

struct TickRow {
  double low, high;
  int most;
  std::vector<double> want;
  const char* last_words;            ///< of the last one
};

// Worked by hand: steps of 1, 2 or 5 times a power of ten, the smallest of which no more than `most` fit.
const TickRow kTickRows[] = {
    {0, 1, 6, {0, 0.2, 0.4, 0.6, 0.8, 1}, "1.0"},
    {0, 1, 11, {0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1}, "1.0"},
    {0, 1, 5, {0, 0.5, 1}, "1.0"},
    {0, 1, 2, {0, 1}, "1"},
    {0, 12, 5, {0, 5, 10}, "10"},
    {0, 9.9, 5, {0, 2, 4, 6, 8}, "8"},
    {-3, 3, 8, {-3, -2, -1, 0, 1, 2, 3}, "3"},
    {0.31, 0.36, 6, {0.31, 0.32, 0.33, 0.34, 0.35, 0.36}, "0.36"},
    {0.31, 0.36, 4, {0.32, 0.34, 0.36}, "0.36"},
    {1000, 4200, 8, {1000, 1500, 2000, 2500, 3000, 3500, 4000}, "4000"},
    {0.0012, 0.0019, 8, {0.0012, 0.0013, 0.0014, 0.0015, 0.0016, 0.0017, 0.0018, 0.0019}, "0.0019"},
    {1.1, 1.9, 2, {1.5}, "1.5"},
};

TEST(Plot, TicksLieAtOneTwoOrFive) {
  for (const TickRow& row : kTickRows) {
    SCOPED_TRACE(testing::Message() << row.low << " to " << row.high << ", at most " << row.most);
    const auto got = ticks(row.low, row.high, row.most);
    ASSERT_EQ(got.size(), row.want.size());
    for (std::size_t i = 0; i < got.size(); ++i) EXPECT_NEAR(got[i], row.want[i], 1e-12 * (1 + std::abs(row.want[i])));
    const double step = got.size() > 1 ? got[1] - got[0] : 0.5;
    EXPECT_EQ(tickWords(got.back(), step), row.last_words);
  }
}

TEST(Plot, TicksAreNeverMoreThanAskedFor) {
  for (const double span : {0.003, 0.7, 1.0, 4.4, 99.0, 12345.0})
    for (const double low : {-7.7, 0.0, 0.123})
      for (int most = 2; most <= 12; ++most) {
        const auto got = ticks(low, low + span, most);
        EXPECT_LE(got.size(), static_cast<std::size_t>(most));
        for (const double t : got) EXPECT_TRUE(t >= low - 1e-6 * span && t <= low + span + 1e-6 * span);
      }
}

TEST(Plot, TickWordsTellNegativesAndNoNegativeNought) {
  EXPECT_EQ(tickWords(-2, 1), "\u22122");
  EXPECT_EQ(tickWords(-0.5, 0.5), "\u22120.5");
  EXPECT_EQ(tickWords(-1e-15, 0.2), "0.0");
  EXPECT_EQ(tickWords(30, 10), "30");
}

/// A point in the middle and a band; where the middle lies is found by the tooltip.
struct PlotBench {
  int clicked = -1;
  PlotSpec spec;
  Frames frames{Page::Mixes, [this](DeskState&, Drawing& d) {
                  const int one = drawPlot("plot", spec, 600, 400, d.look);
                  if (one >= 0) clicked = one;
                }};
  PlotBench() {
    spec.x_words = "share";
    spec.y_words = "distance";
    spec.y_high = 10;
    PlotPoint point;
    point.x = 0.5;
    point.y = 5;
    point.low = 4;
    point.high = 6;
    point.words = "the point";
    point.id = 7;
    spec.points = {point};
    frames.frames(2);
  }
  /// Middle of all places at which something is told.
  ImVec2 told() {
    float left = 1e9f, right = 0, top = 1e9f, bottom = 0;
    for (float y = 10; y < 410; y += 4)
      for (float x = 10; x < 610; x += 4) {
        frames.move(x, y);
        if (!frames.tooltip()) continue;
        left = std::min(left, x), right = std::max(right, x), top = std::min(top, y), bottom = std::max(bottom, y);
      }
    EXPECT_LE(right - left, 30);  // the point's surroundings, no more
    return {(left + right) / 2, (top + bottom) / 2};
  }
};

TEST(Plot, PointingAtAPointTellsItAndAClickGivesItsId) {
  PlotBench bench;
  const ImVec2 at = bench.told();
  ASSERT_LT(at.x, 600);
  EXPECT_EQ(bench.clicked, -1);
  bench.frames.clicked(at.x + 60, at.y);
  EXPECT_EQ(bench.clicked, -1) << "beside the point";
  bench.frames.clicked(at.x, at.y);
  EXPECT_EQ(bench.clicked, 7);
}

TEST(Plot, APointAboveThePlotIsAtItsUpperEdge) {
  PlotBench bench;
  const ImVec2 middle = bench.told();
  bench.spec.points[0].y = 80;
  const ImVec2 at = bench.told();
  EXPECT_NEAR(at.x, middle.x, 4);
  EXPECT_LT(at.y, 70);
  bench.frames.clicked(at.x, at.y);
  EXPECT_EQ(bench.clicked, 7);
}

TEST(Plot, TheBandTellsItsValueUnderThePointer) {
  PlotBench bench;
  bench.spec.bands.push_back({{0, 1}, {0, 2}, {4, 6}, {2, 4}});
  bench.frames.move(200, 100);
  EXPECT_TRUE(bench.frames.tooltip());
  bench.frames.move(900, 100);
  EXPECT_FALSE(bench.frames.tooltip()) << "outside the plot";
}

TEST(Plot, TooLittleRoomDrawsNothing) {
  Frames frames(Page::Mixes, [](DeskState&, Drawing& d) { EXPECT_EQ(drawPlot("plot", {}, 20, 20, d.look), -1); });
  frames.frames(2);
}

}  // namespace
}  // namespace huewright::desk
