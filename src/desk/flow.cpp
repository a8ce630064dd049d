#include "desk/flow.hpp"

#include <algorithm>
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

std::string inLines(const std::string& text, float width, ImFont* font, float size) {
  if (!font) font = ImGui::GetFont();
  if (!(size > 0)) size = font == ImGui::GetFont() ? ImGui::GetFontSize() : font->FontSize;
  const auto wide = [&](std::size_t from, std::size_t to) { return font->CalcTextSizeA(size, 1e9f, 0, text.data() + from, text.data() + to).x; };
  constexpr float kGive = 0.5f;  // px: what rounding may add up to
  std::string out = text;
  for (std::size_t line = 0, at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find_first_of(" \n", at), text.size());
    if (at > line && wide(line, end) > width - kGive) {
      out[at - 1] = '\n';
      line = at;
    }
    at = end + 1;
    if (end < text.size() && text[end] == '\n') line = at;
  }
  return out;
}

float heightInLines(const std::string& text, float width, ImFont* font, float size) { return font->CalcTextSizeA(size, 1e6f, width, inLines(text, width, font, size).c_str()).y; }

void wrapped(const std::string& text, ImFont* font) {
  if (font) ImGui::PushFont(font);
  ImGui::PushTextWrapPos(0);
  ImGui::TextUnformatted(inLines(text, ImGui::GetContentRegionAvail().x).c_str());
  ImGui::PopTextWrapPos();
  if (font) ImGui::PopFont();
}

float buttonWidth(const char* word) { return ImGui::CalcTextSize(word).x + 2 * ImGui::GetStyle().FramePadding.x; }

}  // namespace huewright::desk
