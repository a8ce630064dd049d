#include "desk/plot_marks.hpp"

#include <gtest/gtest.h>

#include "desk_frames.hpp"

namespace huewright::desk {
namespace {

/// What a mark draws round (100, 100): its vertices.
std::vector<ImVec2> markShape(Mark mark, bool selected, float text = 1) {
  std::vector<ImVec2> out;
  Frames frames(
      Page::Mixes,
      [&](DeskState&, Drawing& d) {
        ImDrawList* list = ImGui::GetWindowDrawList();
        const int before = list->VtxBuffer.Size;
        drawMark(list, mark, 100, 100, ink(90), selected, d.look);
        out.clear();
        for (int i = before; i < list->VtxBuffer.Size; ++i) out.push_back(list->VtxBuffer[i].pos);
      },
      1280, 720, text);
  frames.frame();
  return out;
}

float markReach(const std::vector<ImVec2>& shape) {
  float most = 0;
  for (const ImVec2& v : shape) most = std::max({most, std::abs(v.x - 100), std::abs(v.y - 100)});
  return most;
}

TEST(PlotMarks, EveryMarkHasAShapeOfItsOwn) {
  std::vector<std::size_t> counts;
  std::vector<float> reaches;
  for (const Mark mark : {Mark::Square, Mark::Disc, Mark::Diamond, Mark::Cross}) {
    const auto shape = markShape(mark, false);
    for (std::size_t i = 0; i < counts.size(); ++i) EXPECT_TRUE(counts[i] != shape.size() || std::abs(reaches[i] - markReach(shape)) > 1.5f);
    counts.push_back(shape.size());
    reaches.push_back(markReach(shape));
  }
}

TEST(PlotMarks, AChosenOneHasAnOutlineRoundIt) { EXPECT_GT(markReach(markShape(Mark::Disc, true)), markReach(markShape(Mark::Disc, false)) + 4); }

TEST(PlotMarks, GrowWithTheType) { EXPECT_NEAR(markReach(markShape(Mark::Square, false, 3)), 3 * markReach(markShape(Mark::Square, false)), 3); }

}  // namespace
}  // namespace huewright::desk
