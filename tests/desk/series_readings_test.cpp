#include <gtest/gtest.h>

#include "desk/series_parts.hpp"
#include "desk_frames.hpp"
#include "teal_job.hpp"

namespace huewright::desk {
namespace {

Frames readings() {
  return Frames(Page::Mixes, [](DeskState& view, Drawing& d) { drawReadings(view.series, d); });
}

struct RowEditRow {
  const char* field;
  const char* text;
  SeriesPanel want;                  ///< nothing changes when its strong is below 0
};

TEST(SeriesReadings, EditingARowHandsOnTheChangedSeries) {
  SeriesPanel carrier = tealPanel(1, 1, 3, {});
  carrier.carrier_per_tint = 6;
  const RowEditRow rows[] = {{"##strong", "2", tealPanel(2, 1, 3, {})}, {"##weak", "1.5", tealPanel(1, 1.5, 3, {})}, {"##coats", "4", tealPanel(1, 1, 4, {})}, {"##carrier", "6", carrier},
                             {"##coats", "0", tealPanel(-1, 0, 0, {})}, {"##weak", "many", tealPanel(-1, 0, 0, {})}, {"##coats", "3", tealPanel(-1, 0, 0, {})}};
  Frames frames = readings();
  frames.state = tealJob();
  for (const RowEditRow& row : rows) {
    SCOPED_TRACE(testing::Message() << row.field << " " << row.text);
    const auto at = frames.find("desk", {1, row.field});
    ASSERT_TRUE(at);
    frames.clicked(at->x, at->y);
    const Actions done = frames.typed(row.text);
    const auto* set = only<act::SetSeries>(done);
    if (row.want.strong < 0) {
      EXPECT_TRUE(done.empty());
      continue;
    }
    ASSERT_TRUE(set);
    ASSERT_EQ(set->series.panels.size(), 3U);
    const SeriesPanel& got = set->series.panels[1];
    EXPECT_EQ(got.strong, row.want.strong);
    EXPECT_EQ(got.weak, row.want.weak);
    EXPECT_EQ(got.coats, row.want.coats);
    EXPECT_EQ(got.carrier_per_tint, row.want.carrier_per_tint);
    EXPECT_EQ(got.lab, frames.state.plan.series->panels[1].lab);
    EXPECT_EQ(set->series.panels[0].coats, 3);
    EXPECT_EQ(set->words, "changing reading 2");
    EXPECT_FALSE(set->joins);
  }
}

TEST(SeriesReadings, AWrongNumberIsSaidAndAGoodOneUnsaysIt) {
  Frames frames = readings();
  frames.state = tealJob();
  auto at = frames.find("desk", {0, "##coats"});
  ASSERT_TRUE(at);
  frames.clicked(at->x, at->y);
  frames.typed("99");
  EXPECT_EQ(frames.view.series.trouble, "Coats: a number above 0 and up to 50.");
  at = frames.find("desk", {0, "##coats"});
  ASSERT_TRUE(at);
  frames.clicked(at->x, at->y);
  frames.typed("2");
  EXPECT_EQ(frames.view.series.trouble, "");
}

TEST(SeriesReadings, AMixOfNoPartsIsRefused) {
  Frames frames = readings();
  frames.state = tealJob();
  frames.state.plan.series->panels[0].weak = 0;
  const auto at = frames.find("desk", {0, "##strong"});
  ASSERT_TRUE(at);
  frames.clicked(at->x, at->y);
  EXPECT_TRUE(frames.typed("0").empty());
  EXPECT_EQ(frames.view.series.trouble, "A mix takes at least one part of one of the tints.");
}

TEST(SeriesReadings, TabGoesRoundAndAClickChooses) {
  Frames frames = readings();
  frames.state = tealJob();
  frames.frames(2);
  for (const int want : {0, 1, 2, 0}) {
    frames.pressed(Do::NextReading);
    EXPECT_EQ(frames.view.series.selected, want);
  }
  const auto at = frames.find("desk", {1, "##coats"});
  ASSERT_TRUE(at);
  frames.clicked(at->x, at->y - 30);
  EXPECT_EQ(frames.view.series.selected, 1);
}

TEST(SeriesReadings, DeleteTakesTheChosenOneOut) {
  Frames frames = readings();
  frames.state = tealJob();
  frames.frames(2);
  EXPECT_TRUE(frames.pressed(Do::RemoveReading).empty()) << "none is chosen";
  frames.view.series.selected = 1;
  const Actions done = frames.pressed(Do::RemoveReading);
  const auto* set = only<act::SetSeries>(done);
  ASSERT_TRUE(set);
  ASSERT_EQ(set->series.panels.size(), 2U);
  EXPECT_EQ(set->series.panels[0].weak, 3);
  EXPECT_EQ(set->series.panels[1].coats, 5);
  EXPECT_EQ(set->words, "taking reading 2 out");
}

TEST(SeriesReadings, AcceptingIsTakenBackByTheSameKey) {
  Frames frames = readings();
  frames.state = tealJob();
  frames.view.series.selected = 1;
  frames.frames(2);
  const Actions done = frames.pressed(Do::AcceptMix);
  const auto* set = only<act::SetSeries>(done);
  ASSERT_TRUE(set);
  ASSERT_TRUE(set->series.accepted);
  EXPECT_EQ(set->series.accepted->strong, 1);
  EXPECT_EQ(set->series.accepted->coats, 3);
  frames.state.plan.series = set->series;
  EXPECT_TRUE(isAccepted(*frames.state.plan.series, frames.state.plan.series->panels[1]));
  EXPECT_FALSE(isAccepted(*frames.state.plan.series, frames.state.plan.series->panels[0]));
  const Actions back = frames.pressed(Do::AcceptMix);
  ASSERT_TRUE(only<act::SetSeries>(back));
  EXPECT_FALSE(only<act::SetSeries>(back)->series.accepted);
}

TEST(SeriesReadings, AChosenRowThatIsGoneIsForgotten) {
  Frames frames = readings();
  frames.state = tealJob();
  frames.view.series.selected = 2;
  frames.state.plan.series->panels.resize(1);
  frames.frame();
  EXPECT_EQ(frames.view.series.selected, 0);
  frames.state.plan.series->panels.clear();
  frames.frame();
  EXPECT_EQ(frames.view.series.selected, -1);
}

TEST(SeriesReadings, MarksAreThoseOfThePlot) {
  SittingState state = tealJob();
  auto plot = std::make_shared<SeriesPlot>(*state.series.plot);
  plot->panels[0].at_these_coats = true;
  state.series.plot = plot;
  EXPECT_EQ(markOf(state.series, 0), Mark::Square);
  EXPECT_EQ(markOf(state.series, 1), Mark::Disc);
  EXPECT_EQ(markOf(state.series, 2), Mark::Cross);
  state.series.plot = nullptr;
  EXPECT_EQ(markOf(state.series, 0), Mark::Disc);
  EXPECT_EQ(markOf(state.series, 2), Mark::Cross) << "its row says why it is left out";
}

}  // namespace
}  // namespace huewright::desk
