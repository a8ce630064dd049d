// Finds an item of an ImGui window by its name: the mouse looks for it.
#pragma once

#include <functional>
#include <imgui.h>
#include <imgui_internal.h>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "desk/keys.hpp"

namespace huewright::fixtures {

/// One step from a window to an item: a name, a table's name, PushID's number, or the button of an action with the table's word.
class IdStep {
 public:
  IdStep(const char* name) : step_(std::string(name)) {}
  IdStep(std::string name) : step_(std::move(name)) {}
  IdStep(int number) : step_(number) {}
  IdStep(desk::Do what, const char* word) : step_(desk::buttonName(what, word)) {}
  IdStep(desk::Do what) : step_(desk::buttonName(what)) {}

  ImGuiID from(ImGuiID seed) const {
    if (const int* number = std::get_if<int>(&step_)) return ImHashData(number, sizeof(int), seed);
    return ImHashStr(std::get<std::string>(step_).c_str(), 0, seed);
  }
  std::string words() const { return std::holds_alternative<int>(step_) ? std::to_string(std::get<int>(step_)) : std::get<std::string>(step_); }

 private:
  std::variant<std::string, int> step_;
};

/// The middle of the item at the end of these steps in the window whose name has this part. moveTo: puts the mouse there and draws a frame.
inline std::optional<ImVec2> findItem(const std::function<void(float, float)>& moveTo, float width, float height, std::string_view window, std::initializer_list<IdStep> steps) {
  moveTo(-10, -10);
  ImGuiID id = 0;
  ImRect within;
  for (const ImGuiWindow* w : ImGui::GetCurrentContext()->Windows)
    if (w->Active && std::string_view(w->Name).find(window) != std::string_view::npos) id = w->ID, within = w->Rect();
  for (const IdStep& step : steps) id = step.from(id);
  const float left = within.Min.x + 4, top = within.Min.y + 4, right = std::min(width, within.Max.x), bottom = std::min(height, within.Max.y);
  const auto isAt = [&](float x, float y) {
    moveTo(x, y);
    return x >= 0 && y >= 0 && x < width && y < height && ImGui::GetCurrentContext()->HoveredId == id;
  };
  // Wide items are found in few steps; then narrow ones are looked for.
  for (const ImVec2 stride : {ImVec2{90, 14}, ImVec2{24, 8}})
    for (float y = top; y < bottom; y += stride.y)
      for (float x = left; x < right; x += stride.x) {
        if (!isAt(x, y)) continue;
        const auto reach = [&](float dx, float dy) {
          float far = 0;
          while (isAt(x + (far + 4) * dx, y + (far + 4) * dy)) far += 4;
          return far;
        };
        return ImVec2{x + (reach(1, 0) - reach(-1, 0)) / 2, y + (reach(0, 1) - reach(0, -1)) / 2};
      }
  return {};
}

}  // namespace huewright::fixtures
