#include <gtest/gtest.h>
#include <map>

#include "desk/series_parts.hpp"
#include "desk_frames.hpp"
#include "teal_job.hpp"

namespace huewright::desk {
namespace {

TEST(SeriesGrounds, EachGroundHasItsBareAndMixedColour) {
  SittingState state = tealJob();
  state.series.grounds[0].bare.rgb = {200, 200, 201};
  state.series.grounds[0].mixed->rgb = {50, 120, 121};
  state.series.grounds[1].bare.rgb = {230, 231, 230};
  state.series.grounds[1].mixed->rgb = {60, 140, 141};
  Frames frames(Page::Mixes, [](DeskState& view, Drawing& d) { drawOtherGrounds(view.series, d); });
  frames.state = state;
  frames.frames(2);
  std::map<ImU32, int> corners;
  for (int i = 0; i < ImGui::GetDrawData()->CmdListsCount; ++i)
    for (const ImDrawVert& v : ImGui::GetDrawData()->CmdLists[i]->VtxBuffer) ++corners[v.col];
  EXPECT_EQ(corners[ink(state.series.grounds[0].bare.rgb)], 4);
  EXPECT_EQ(corners[ink(state.series.grounds[1].bare.rgb)], 4);
  EXPECT_EQ(corners[ink(state.series.grounds[1].mixed->rgb)], 4);
  EXPECT_EQ(corners[ink(state.series.grounds[0].mixed->rgb)], 12) << "over its own, twice in its row, and beside the other";
}

TEST(SeriesGrounds, WithoutOtherGroundsItSaysWhatToDo) {
  Frames frames(Page::Mixes, [](DeskState& view, Drawing& d) { drawOtherGrounds(view.series, d); });
  frames.state = tealJob();
  frames.state.plan.series->grounds.clear();
  frames.state.series.grounds.resize(1);
  frames.frames(2);
  EXPECT_GT(ImGui::GetDrawData()->TotalVtxCount, 200);
}

/// The page on a stand-in for the sitting that takes the changed series.
struct GroundsBench {
  Frames frames{Page::Mixes, [](DeskState& view, Drawing& d) { drawOtherGrounds(view.series, d); }};
  std::string words;
  GroundsBench() { frames.state = tealJob(); }
  const Series& series() { return *frames.state.plan.series; }
  void take(const Actions& done) {
    const auto* set = only<act::SetSeries>(done);
    ASSERT_TRUE(set);
    EXPECT_FALSE(set->joins);
    words = set->words;
    frames.state.plan.series = set->series;
    auto& shown = frames.state.series.grounds;
    shown.resize(1);
    for (const NamedGround& ground : set->series.grounds) shown.push_back({.name = ground.name, .bare = shown.front().bare});
    frames.frames(2);
  }
  void fill(int row, const char* field, const char* text) {
    const auto at = frames.find("desk", {row, field});
    ASSERT_TRUE(at) << field;
    frames.click(at->x, at->y);
    take(frames.typed(text));
  }
};

TEST(SeriesGrounds, OneIsAddedNamedGivenItsNumbersAndRemoved) {
  GroundsBench bench;
  bench.take(bench.frames.pressed(Do::AddGround));
  ASSERT_EQ(bench.series().grounds.size(), 2u);
  EXPECT_EQ(bench.words, "adding a ground");
  bench.fill(2, "##name", "graphite");
  bench.fill(2, "##L", "31.5");
  bench.fill(2, "##a", "-0,4");
  bench.fill(2, "##b", "-2");
  EXPECT_EQ(bench.series().grounds[1].name, "graphite");
  EXPECT_EQ(bench.series().grounds[1].lab, (Lab<D50>{31.5, -0.4, -2}));
  EXPECT_EQ(bench.series().grounds[0].name, "pearl white");
  EXPECT_EQ(bench.frames.view.series.ground, 1);  // the new one is chosen
  bench.frames.pressed(Do::NextGround);
  EXPECT_EQ(bench.frames.view.series.ground, 0);
  bench.take(bench.frames.pressed(Do::RemoveGround));
  EXPECT_EQ(bench.words, "taking pearl white out");
  ASSERT_EQ(bench.series().grounds.size(), 1u);
  EXPECT_EQ(bench.series().grounds[0].name, "graphite");
}

TEST(SeriesGrounds, ItsOwnGroundIsNamedAndAnotherNeedsAName) {
  GroundsBench bench;
  bench.fill(0, "##name", "silver");
  EXPECT_EQ(bench.series().ground->name, "silver");
  const auto at = bench.frames.find("desk", {1, "##name"});
  ASSERT_TRUE(at);
  bench.frames.click(at->x, at->y);
  bench.frames.key(kKeyDelete);
  EXPECT_TRUE(bench.frames.typed("").empty());
  EXPECT_NE(bench.frames.view.series.ground_trouble, "");
  EXPECT_EQ(bench.series().grounds[0].name, "pearl white");
  bench.fill(1, "##L", "90");
  EXPECT_EQ(bench.frames.view.series.ground_trouble, "");
}

TEST(SeriesGrounds, TheJudgedPanelIsTakenAsOne) {
  GroundsBench bench;
  EXPECT_TRUE(bench.frames.pressed(Do::TakeGround).empty());  // nothing is judged
  auto report = std::make_shared<JudgeReport>();
  report->reading.panels.resize(1);
  report->reading.panels[0].lab = {70, 1, 2};
  bench.frames.state.judged.emplace().report = report;
  bench.take(bench.frames.pressed(Do::TakeGround));
  EXPECT_EQ(bench.series().grounds.at(1).lab, (Lab<D50>{70, 1, 2}));
}

TEST(SeriesGrounds, NothingIsWiderThanItsWindow) {
  for (const float text : {1.0f, 3.0f}) {
    Frames frames(Page::Mixes, [](DeskState& view, Drawing& d) { drawOtherGrounds(view.series, d); }, 1280, 720, text);
    frames.state = tealJob();
    frames.frames(3);
    EXPECT_LE(frames.tooWide(), 0.5f) << text;
  }
}

}  // namespace
}  // namespace huewright::desk
