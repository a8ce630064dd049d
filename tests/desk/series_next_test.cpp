#include <gtest/gtest.h>

#include "desk/series_parts.hpp"
#include "desk_frames.hpp"
#include "teal_job.hpp"

namespace huewright::desk {
namespace {

TEST(SeriesNext, CoatsOnThePartAreTaken) {
  Frames frames(Page::Mixes, [](DeskState&, Drawing& d) { drawNextMix(d), drawNextMore(d); });
  frames.state = tealJob();
  const auto part = [&](std::string_view text) {
    const auto at = frames.find("desk", {"##part"});
    EXPECT_TRUE(at);
    if (!at) return Actions{};
    frames.clicked(at->x, at->y);
    return frames.typed(text);
  };
  const Actions three = part("3");
  ASSERT_TRUE(only<act::SetPart>(three));
  EXPECT_EQ(only<act::SetPart>(three)->coats, 3.0);
  EXPECT_TRUE(part("-1").empty());
  frames.state.plan.part_coats = 3;
  const Actions none = part(" ");
  ASSERT_TRUE(only<act::SetPart>(none));
  EXPECT_FALSE(only<act::SetPart>(none)->coats);
}

TEST(SeriesNext, WhatIsNotKnownIsLeftOut) {
  const auto vertices = [](const SittingState& state) {
    Frames frames(Page::Mixes, [](DeskState&, Drawing& d) { drawNextMix(d), drawNextMore(d); });
    frames.state = state;
    frames.frames(2);
    return ImGui::GetDrawData()->TotalVtxCount;
  };
  SittingState state = tealJob();
  const int all = vertices(state);
  state.series.alternatives.clear();
  const int less = vertices(state);
  EXPECT_LT(less, all);
  state.series.cautions.clear();
  const int least = vertices(state);
  EXPECT_LT(least, less);
  state.series.advice = nullptr;
  EXPECT_LT(vertices(state), least);
  state.series.trouble = "Why there is no advice.";
  EXPECT_GT(vertices(state), 20);
}

}  // namespace
}  // namespace huewright::desk
