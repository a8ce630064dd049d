#include "desk/flow.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <imgui.h>
#include <string>
#include <vector>

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

TEST(Flow, LinesBreakAtSpacesAndNeverWithinANumber) {
  const std::string text = "Panel B is lighter than the card: \u0394E00 1.8 (1.2\u20132.4), seen edge to edge.\nIts mix 1:2.5, 1,5 of carrier.";
  std::vector<std::string> broken;
  Frames frames(Page::Mixes, [&](DeskState&, Drawing&) {
    broken.clear();
    for (float width = 40; width < 900; width += 7) {
      broken.push_back(inLines(text, width));
      std::size_t from = 0;
      for (std::size_t at = 0; at <= broken.back().size(); ++at)
        if (at == broken.back().size() || broken.back()[at] == '\n') {
          const std::string line = broken.back().substr(from, at - from);
          from = at + 1;
          if (line.find(' ') == std::string::npos) continue;
          EXPECT_LE(ImGui::CalcTextSize(line.c_str()).x, width) << line;
          EXPECT_EQ(ImGui::CalcTextSize(line.c_str(), nullptr, false, width).y, ImGui::GetFontSize()) << line;  // ImGui finds nothing more to break
        }
    }
  });
  frames.frame();
  ASSERT_FALSE(broken.empty());
  for (const std::string& lines : broken) {
    ASSERT_EQ(lines.size(), text.size());
    for (std::size_t i = 0; i < lines.size(); ++i) EXPECT_TRUE(lines[i] == text[i] || (lines[i] == '\n' && text[i] == ' ')) << i;
  }
  EXPECT_GT(std::ranges::count(broken.front(), '\n'), 10);
  EXPECT_EQ(broken.back(), text);
}

TEST(Flow, TheHeightIsThatOfTheLinesAsTheyAreDrawn) {
  const std::string text = "aaaaaaaa 12345.6789 bbbbbbbb";
  float told = 0, drawn = 0, by_itself = 0, line = 0;
  Frames frames(Page::Mixes, [&](DeskState&, Drawing&) {
    line = ImGui::GetTextLineHeight();
    const float width = ImGui::CalcTextSize("aaaaaaaa 12345.").x + 2;
    told = heightInLines(text, width, ImGui::GetFont(), ImGui::GetFontSize());
    by_itself = ImGui::CalcTextSize(text.c_str(), nullptr, false, width).y;
    ImGui::BeginChild("narrow", {width, 0});
    wrapped(text);
    drawn = ImGui::GetItemRectSize().y;
    ImGui::EndChild();
  });
  frames.frame();
  EXPECT_EQ(told, drawn);
  EXPECT_EQ(told, 3 * line);
  EXPECT_EQ(by_itself, 2 * line);  // ImGui breaks behind the point
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
