#include "desk/flow.hpp"

#include <imgui.h>

namespace huewright::desk {

Flow::Flow(float gap) : gap_(gap > 0 ? gap : ImGui::GetStyle().ItemSpacing.x), right_(ImGui::GetCursorScreenPos().x + ImGui::GetContentRegionAvail().x) {}

void Flow::next(float width) {
  if (!first_ && ImGui::GetItemRectMax().x + gap_ + width <= right_) ImGui::SameLine(0, gap_);
  first_ = false;
}

bool Flow::button(Do what, bool enabled, bool on, const char* word) {
  next(buttonWidth(word ? word : keyLine(what).word));
  return desk::button(what, enabled, on, word);
}

void Flow::words(const char* text) {
  next(ImGui::CalcTextSize(text).x);
  ImGui::AlignTextToFramePadding();
  wrapped(text);
}

void wrapped(const std::string& text, ImFont* font) {
  if (font) ImGui::PushFont(font);
  ImGui::PushTextWrapPos(0);
  ImGui::TextUnformatted(text.c_str());
  ImGui::PopTextWrapPos();
  if (font) ImGui::PopFont();
}

float buttonWidth(const char* word) { return ImGui::CalcTextSize(word).x + 2 * ImGui::GetStyle().FramePadding.x; }

}  // namespace huewright::desk
