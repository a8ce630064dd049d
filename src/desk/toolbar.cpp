#include "desk/toolbar.hpp"

#include <imgui.h>

#include "desk/flow.hpp"

namespace huewright::desk {
namespace {

constexpr const char* kMoreWord = "More";

struct ToolLayout {
  std::vector<bool> breaks;          ///< of each button that is shown: a new row begins
  bool all = true;
  float end = 0;                     ///< of the last row
};

/// Fills rows from the left; when not all fit, the last row keeps room for "More".
ToolLayout layoutOf(std::span<const ToolItem> items, int rows, float width) {
  const float gap = ImGui::GetStyle().ItemSpacing.x, more = buttonWidth(kMoreWord);
  const auto fill = [&](float kept) {
    ToolLayout layout;
    float x = 0;
    int row = 1;
    for (const ToolItem& item : items) {
      const float w = buttonWidth(item.word ? item.word : keyLine(item.what).word);
      const bool breaks = x > 0 && x + w > width - (row == rows ? kept : 0);
      if ((breaks && row == rows) || w > width - (row + breaks == rows ? kept : 0)) {
        layout.all = false;
        break;
      }
      if (breaks) ++row, x = 0;
      layout.breaks.push_back(breaks);
      x += w + gap;
    }
    layout.end = x;
    return layout;
  };
  const ToolLayout whole = fill(0);
  return whole.all ? whole : fill(more + gap);
}

}  // namespace

std::vector<Do> drawToolbar(const char* name, std::span<const ToolItem> items, int rows) {
  std::vector<Do> done;
  ImGui::PushID(name);
  const ToolLayout layout = layoutOf(items, rows, ImGui::GetContentRegionAvail().x);
  const std::size_t shown = layout.breaks.size();
  for (std::size_t i = 0; i < shown; ++i) {
    if (i > 0 && !layout.breaks[i]) ImGui::SameLine();
    if (button(items[i].what, items[i].enabled, items[i].on, items[i].word)) done.push_back(items[i].what);
  }
  if (!layout.all) {
    if (shown > 0 && layout.end + buttonWidth(kMoreWord) <= ImGui::GetContentRegionAvail().x) ImGui::SameLine();
    if (ImGui::Button(kMoreWord)) ImGui::OpenPopup("more");
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("The other buttons. Their keys work without it.");
    const bool open = ImGui::BeginPopup("more");
    for (std::size_t i = shown; i < items.size(); ++i) {
      const bool clicked = open ? button(items[i].what, items[i].enabled, items[i].on, items[i].word) : items[i].enabled && keyPressed(items[i].what);
      if (!clicked) continue;
      done.push_back(items[i].what);
      if (open) ImGui::CloseCurrentPopup();
    }
    if (open) ImGui::EndPopup();
  }
  ImGui::PopID();
  return done;
}

}  // namespace huewright::desk
