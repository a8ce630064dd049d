#include "desk/sheet.hpp"

#include <algorithm>
#include <imgui.h>

namespace huewright::desk {

void beginSheet(const char* name, float width, float height, const Look& look) {
  const ImVec2 all = ImGui::GetIO().DisplaySize;
  const ImVec2 size{std::min(width * look.scale, 0.96f * all.x), std::min(height * look.scale, 0.94f * all.y)};
  ImGui::SetNextWindowPos({0.5f * (all.x - size.x), 0.5f * (all.y - size.y)});
  ImGui::SetNextWindowSize(size);
  ImGui::PushStyleColor(ImGuiCol_WindowBg, ink(look.greys.panel));
  ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 1);
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {20 * look.scale, 16 * look.scale});
  ImGui::Begin(name, nullptr, ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoSavedSettings);
}

bool endSheet() {
  // The frame in which a sheet opens still has the click that opened it.
  const bool outside = !ImGui::IsWindowAppearing() && ImGui::IsMouseClicked(0) && !ImGui::IsWindowHovered(ImGuiHoveredFlags_RootAndChildWindows | ImGuiHoveredFlags_AllowWhenBlockedByPopup | ImGuiHoveredFlags_AllowWhenBlockedByActiveItem) &&
                       ImGui::IsWindowFocused(ImGuiFocusedFlags_RootAndChildWindows) && !ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopupId);
  ImGui::End();
  ImGui::PopStyleVar(2);
  ImGui::PopStyleColor();
  return !outside;
}

}  // namespace huewright::desk
