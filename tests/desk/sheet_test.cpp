#include "desk/sheet.hpp"

#include <gtest/gtest.h>

#include <imgui.h>

#include "desk_frames.hpp"

namespace huewright::desk {
namespace {

TEST(Sheet, IsNeverLargerThanTheWindowAndAClickOutsideLeavesIt) {
  bool open = true;
  ImVec2 at, size;
  Frames frames(
      Page::Panel,
      [&](DeskState&, Drawing& d) {
        if (!open) return;
        beginSheet("sheet", 900, 2000, d.look);
        at = ImGui::GetWindowPos();
        size = ImGui::GetWindowSize();
        ImGui::Button("inside");
        if (!endSheet()) open = false;
      },
      1280, 720, 2);
  frames.frames(3);
  EXPECT_LE(size.x, 1280);
  EXPECT_LE(size.y, 720);
  frames.clicked(at.x + 30, at.y + 30);
  EXPECT_TRUE(open);
  frames.clicked(4, 4);
  EXPECT_FALSE(open);
}

}  // namespace
}  // namespace huewright::desk
