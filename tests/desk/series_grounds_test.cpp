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
  state.series.grounds[0].mixed.rgb = {50, 120, 121};
  state.series.grounds[1].bare.rgb = {230, 231, 230};
  state.series.grounds[1].mixed.rgb = {60, 140, 141};
  Frames frames(Page::Mixes, [](DeskState&, Drawing& d) { drawOtherGrounds(d); });
  frames.state = state;
  frames.frames(2);
  std::map<ImU32, int> corners;
  for (int i = 0; i < ImGui::GetDrawData()->CmdListsCount; ++i)
    for (const ImDrawVert& v : ImGui::GetDrawData()->CmdLists[i]->VtxBuffer) ++corners[v.col];
  EXPECT_EQ(corners[ink(state.series.grounds[0].bare.rgb)], 4);
  EXPECT_EQ(corners[ink(state.series.grounds[1].bare.rgb)], 4);
  EXPECT_EQ(corners[ink(state.series.grounds[1].mixed.rgb)], 4);
  EXPECT_EQ(corners[ink(state.series.grounds[0].mixed.rgb)], 12) << "over its own, twice in its row, and beside the other";
}

TEST(SeriesGrounds, WithoutOtherGroundsItSaysWhatToDo) {
  Frames frames(Page::Mixes, [](DeskState&, Drawing& d) { drawOtherGrounds(d); });
  frames.state = tealJob();
  frames.state.plan.series->grounds.clear();
  frames.state.series.grounds.clear();
  frames.frames(2);
  EXPECT_GT(ImGui::GetDrawData()->TotalVtxCount, 200);
}

}  // namespace
}  // namespace huewright::desk
