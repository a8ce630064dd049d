#include "desk/toolbar.hpp"

#include <array>
#include <gtest/gtest.h>

#include "support/desk_photo.hpp"

namespace huewright::desk {
namespace {

constexpr std::array kTools{ToolItem{Do::ZoomWhole}, ToolItem{Do::ZoomPixels}, ToolItem{Do::ZoomIn}, ToolItem{Do::AddPanel}, ToolItem{Do::AddCard, false}, ToolItem{Do::FindRegions}};

struct ToolbarTest : testing::Test {
  /// One frame with the toolbar in a window of that width; gives what was done and how wide and high it was.
  std::vector<Do> show(float width, int rows) {
    ImGui::NewFrame();
    keysOf(Page::Panel);
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize({width, 500});
    ImGui::Begin("tools", nullptr, ImGuiWindowFlags_NoDecoration);
    const float top = ImGui::GetCursorPosY();
    auto done = drawToolbar("tools", kTools, rows);
    rows_used = static_cast<int>((ImGui::GetCursorPosY() - top) / ImGui::GetFrameHeightWithSpacing() + 0.5f);
    ImGui::End();
    ImGui::Render();
    cut = fixtures::DeskDriver::cutOff("tools");
    return done;
  }
  fixtures::DeskDriver driver;
  float cut = 0;
  int rows_used = 0;
};

TEST_F(ToolbarTest, WrapsAndIsNeverCutOff) {
  int most = 0;
  for (const float width : {90.0f, 160.0f, 240.0f, 400.0f, 900.0f})
    for (const int rows : {1, 2, 3}) {
      show(width, rows);
      show(width, rows);
      EXPECT_LE(cut, 1.0f) << width << " " << rows;
      EXPECT_LE(rows_used, rows) << width;
      most = std::max(most, rows_used);
    }
  EXPECT_EQ(most, 3);
  show(900, 3);
  EXPECT_EQ(rows_used, 1);
}

TEST_F(ToolbarTest, KeysWorkAlsoBehindMore) {
  for (const float width : {90.0f, 900.0f})
    for (const ToolItem& item : kTools) {
      const KeyLine& line = keyLine(item.what);
      show(width, 1);
      ImGui::GetIO().KeysDown[line.key] = true;
      const auto done = show(width, 1);
      ImGui::GetIO().KeysDown[line.key] = false;
      show(width, 1);
      EXPECT_EQ(done, item.enabled ? std::vector<Do>{item.what} : std::vector<Do>{}) << line.word << " " << width;
    }
}

TEST_F(ToolbarTest, MoreOpensTheOthers) {
  ImGuiIO& io = ImGui::GetIO();
  show(90, 1);
  show(90, 1);
  io.MousePos = {20, 20};
  show(90, 1);
  io.MouseDown[0] = true;
  show(90, 1);
  io.MouseDown[0] = false;
  show(90, 1);
  show(90, 1);
  EXPECT_TRUE(ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopupId | ImGuiPopupFlags_AnyPopupLevel));
}

}  // namespace
}  // namespace huewright::desk
