#include "desk/swatch_row.hpp"

#include <gtest/gtest.h>
#include <set>

#include "desk_frames.hpp"

namespace huewright::desk {
namespace {

TEST(SwatchRow, ColoursAreFlatAndTheirEdgesTouch) {
  const Swatch red{{200, 10, 20}, false, "red's numbers"}, blue{{10, 20, 200}, false, "blue's numbers"};
  std::vector<ImDrawVert> drawn;
  ImVec2 at{};
  Frames frames(Page::Mixes, [&](DeskState&, Drawing& d) {
    ImDrawList* list = ImGui::GetWindowDrawList();
    const int before = list->VtxBuffer.Size;
    at = ImGui::GetCursorScreenPos();
    const SwatchPiece pieces[]{{&red, "left"}, {&blue, "right"}};
    swatchRow("two", pieces, 201, 50, d.look);
    drawn.assign(list->VtxBuffer.begin() + before, list->VtxBuffer.end());
  });
  frames.frames(2);
  float red_right = 0, blue_left = 1e9f;
  for (const ImDrawVert& v : drawn) {
    EXPECT_TRUE(v.col == ink(red.rgb) || v.col == ink(blue.rgb));
    EXPECT_EQ(v.pos.x, std::round(v.pos.x)) << "on whole pixels, else the edge is mixed";
    if (v.col == ink(red.rgb)) red_right = std::max(red_right, v.pos.x);
    else blue_left = std::min(blue_left, v.pos.x);
  }
  EXPECT_EQ(drawn.size(), 8U);
  EXPECT_EQ(red_right, blue_left);
  EXPECT_FALSE(frames.tooltip());
  frames.move(at.x + 150, at.y + 20);
  EXPECT_TRUE(frames.tooltip());
}

TEST(SwatchRow, WhatIsNotKnownOrCannotBeShownLooksDifferent) {
  const auto colours = [](const Swatch* swatch) {
    std::set<ImU32> seen;
    Frames frames(Page::Mixes, [&](DeskState&, Drawing& d) {
      ImDrawList* list = ImGui::GetWindowDrawList();
      const int before = list->VtxBuffer.Size;
      const SwatchPiece piece{swatch, "one"};
      swatchRow("one", {&piece, 1}, 100, 50, d.look);
      seen.clear();
      for (int i = before; i < list->VtxBuffer.Size; ++i)
        if (const ImU32 colour = list->VtxBuffer[i].col; colour >> IM_COL32_A_SHIFT != 0) seen.insert(colour);  // without the soft edge's end
    });
    frames.frame();
    return seen;
  };
  const Swatch inside{{200, 10, 20}, false, ""}, outside{{200, 10, 20}, true, ""};
  EXPECT_EQ(colours(&inside), std::set<ImU32>{ink(inside.rgb)});
  EXPECT_EQ(colours(&outside), (std::set<ImU32>{ink(inside.rgb), ink(Greys{}.surround)}));
  EXPECT_FALSE(colours(nullptr).contains(ink(inside.rgb)));
}

TEST(SwatchRow, ALightGroundHasALineRoundItOnALightSurroundOnly) {
  const Swatch silver{{196, 198, 200}, false, ""};
  for (const Surround surround : {Surround::Light, Surround::Mid, Surround::Dark}) {
    const Greys greys = greysOf(surround);
    bool line = false;
    Frames frames(Page::Mixes, [&](DeskState&, Drawing& d) {
      ImDrawList* list = ImGui::GetWindowDrawList();
      const int before = list->VtxBuffer.Size;
      const SwatchPiece piece{&silver, "ground"};
      swatchRow("one", {&piece, 1}, 100, 50, d.look);
      line = std::any_of(list->VtxBuffer.begin() + before, list->VtxBuffer.end(), [&](const ImDrawVert& v) { return v.col == ink(greys.line); });
    });
    frames.look.greys = greys;
    frames.frames(2);
    EXPECT_EQ(line, surround == Surround::Light);
    EXPECT_GT(std::abs(greys.line - greys.surround), 20);
    EXPECT_GT(std::abs(greys.line - greys.panel), 20);
  }
}

TEST(SwatchRow, AClickTellsWhichAndTheGapBelongsToNone) {
  const Swatch a{{10, 200, 30}, false, "a"};
  for (const float gap : {0.0f, 30.0f}) {
    int clicked = -1;
    Frames frames(Page::Panel, [&](DeskState&, Drawing& d) {
      const SwatchPiece pieces[]{{&a, "one"}, {&a, "two"}, {&a, "three"}};
      ImGui::SetCursorScreenPos({0, 20});
      clicked = std::max(clicked, namedSwatches("three", pieces, 300, 100, d.look, gap));
    });
    frames.frames(2);
    frames.clicked(gap > 0 ? 90 : 105, 60);
    EXPECT_EQ(clicked, gap > 0 ? -1 : 1) << gap;
    frames.clicked(150, 60);
    EXPECT_EQ(clicked, 1) << gap;
    EXPECT_EQ(swatchRow("none", {}, 10, 10, frames.look), -1);
  }
}

}  // namespace
}  // namespace huewright::desk
