#include "desk/signs.hpp"

#include <gtest/gtest.h>

#include "desk_frames.hpp"

namespace huewright::desk {
namespace {

TEST(Signs, BreakWithinTheRoomAndStandBeforeTheirWords) {
  const char* long_words = "A sentence that is far longer than a window of three hundred pixels takes.";
  float before = 0, after = 0;
  Frames frames(
      Page::Mixes,
      [&](DeskState&, Drawing& d) {
        before = ImGui::GetCursorPosX();
        cautionLine(long_words, d.look);
        itemLine(long_words, d.look);
        heading(long_words, d.look);
        after = ImGui::GetCursorPosX();
      },
      300);
  frames.frames(3);
  EXPECT_LE(frames.tooWide(), 0.5f);
  EXPECT_EQ(before, after);
}

TEST(Signs, ACautionsTriangleIsAsHighAsItsType) {
  std::vector<ImVec2> sign;
  ImVec2 at{};
  float em = 0;
  Frames frames(Page::Mixes, [&](DeskState&, Drawing& d) {
    ImDrawList* list = ImGui::GetWindowDrawList();
    const int before = list->VtxBuffer.Size;
    at = ImGui::GetCursorScreenPos();
    em = ImGui::GetFontSize();
    cautionLine("Mind", d.look);
    sign.clear();
    for (int i = before; i < list->VtxBuffer.Size; ++i)
      if (const ImVec2 v = list->VtxBuffer[i].pos; v.x < at.x + 1.3f * em) sign.push_back(v);
  });
  frames.frame();
  ASSERT_FALSE(sign.empty());
  const auto [left, right] = std::ranges::minmax(sign, {}, &ImVec2::x);
  const auto [top, bottom] = std::ranges::minmax(sign, {}, &ImVec2::y);
  EXPECT_NEAR(right.x - left.x, em, 0.3f * em);
  EXPECT_NEAR(bottom.y - top.y, 0.9f * em, 0.3f * em);
  EXPECT_NEAR(left.x, at.x, 0.15f * em);
}

}  // namespace
}  // namespace huewright::desk
