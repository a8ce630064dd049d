#include "desk/flow.hpp"

#include <gtest/gtest.h>

#include "desk_frames.hpp"

namespace huewright::desk {
namespace {

/// Height that three buttons in a row of that width take.
float flowHeight(float width) {
  float height = 0;
  Frames frames(
      Page::Mixes,
      [&](DeskState&, Drawing&) {
        const float from = ImGui::GetCursorPosY();
        Flow flow;
        flow.button(Do::NewSeries);
        flow.button(Do::OpenSeries);
        flow.button(Do::SaveSeriesAs);
        height = ImGui::GetCursorPosY() - from;
      },
      width);
  frames.frames(3);
  EXPECT_LE(frames.tooWide(), 0.5f);
  return height;
}

TEST(Flow, GoesOnInTheNextLineWhereTheWidthEnds) {
  const float one = flowHeight(900);
  EXPECT_NEAR(flowHeight(300), 2 * one, 1);
  EXPECT_NEAR(flowHeight(190), 3 * one, 1);
}

TEST(Flow, WordsWiderThanTheRoomBreak) {
  Frames frames(
      Page::Mixes,
      [](DeskState&, Drawing&) {
        Flow flow;
        flow.words("A sentence that is far longer than a window of two hundred pixels takes.");
        wrapped("And another one that is far longer than a window of two hundred pixels takes.");
      },
      200);
  frames.frames(3);
  EXPECT_LE(frames.tooWide(), 0.5f);
}

TEST(Flow, ButtonWidthIsThatOfTheButton) {
  float told = 0, drawn = 0;
  Frames frames(Page::Mixes, [&](DeskState&, Drawing&) {
    told = buttonWidth(keyLine(Do::NewSeries).word);
    button(Do::NewSeries);
    drawn = ImGui::GetItemRectSize().x;
  });
  frames.frame();
  EXPECT_EQ(told, drawn);
}

}  // namespace
}  // namespace huewright::desk
