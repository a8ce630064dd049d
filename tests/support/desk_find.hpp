// Finds an item of an ImGui window by its name: the mouse looks for it.
#pragma once

#include <functional>
#include <imgui.h>
#include <imgui_internal.h>
#include <optional>
#include <string_view>

namespace huewright::fixtures {

/// The middle of the item of that name in the window whose name has this part; `row` where it lies within PushID(row). moveTo: puts the mouse there and draws a frame.
inline std::optional<ImVec2> findItem(const std::function<void(float, float)>& moveTo, float width, float height, std::string_view window, const char* name, std::optional<int> row = {}) {
  moveTo(-10, -10);
  ImGuiID id = 0;
  ImRect within;
  for (const ImGuiWindow* w : ImGui::GetCurrentContext()->Windows)
    if (w->Active && std::string_view(w->Name).find(window) != std::string_view::npos) id = w->ID, within = w->Rect();
  if (row) id = ImHashData(&*row, sizeof(int), id);
  id = ImHashStr(name, 0, id);
  std::optional<ImVec2> from, to;
  const float right = std::min(width, within.Max.x), bottom = std::min(height, within.Max.y);
  for (float y = within.Min.y + 4; y < bottom; y += 10)
    for (float x = within.Min.x + 4; x < right; x += 24) {
      moveTo(x, y);
      if (ImGui::GetCurrentContext()->HoveredId != id) {
        if (from && to->y == y) x = right;
        continue;
      }
      if (!from) from = ImVec2{x, y};
      to = ImVec2{x, y};
      if (to->y > from->y + 30) x = right, y = bottom;
    }
  if (!from) return {};
  return ImVec2{(from->x + to->x) / 2, (from->y + to->y) / 2};
}

}  // namespace huewright::fixtures
