#include "desk/key_cap.hpp"

#include <algorithm>
#include <imgui.h>
#include <string>

namespace huewright::desk {
namespace {

struct CapWords {
  std::string key, word;
};

CapWords wordsOfCap(const KeyCap& cap) { return {keyWords(keyLine(cap.what)), cap.word ? cap.word : keyLine(cap.what).word}; }

ImVec2 sizeIn(ImFont* font, const std::string& text) { return font->CalcTextSizeA(font->FontSize, 1e9f, 0, text.c_str()); }

/// px that key, word and what lies round them take.
float widthIn(ImFont* font, const CapWords& words) { return sizeIn(font, words.key).x + sizeIn(font, words.word).x + 2.6f * font->FontSize; }

/// The largest of the fonts in which all of them fit.
ImFont* fontOfCaps(std::span<const KeyCap> caps, float width, float height, const Look& look) {
  ImFont* last = look.type.small;
  for (ImFont* font : {look.type.room, look.type.large, look.type.head, look.type.body}) {
    const bool fits = 1.5f * font->FontSize <= height && std::ranges::all_of(caps, [&](const KeyCap& cap) { return widthIn(font, wordsOfCap(cap)) <= width; });
    if (fits) return font;
  }
  return last;
}

}  // namespace

Do keyCaps(std::span<const KeyCap> caps, float height, const Look& look) {
  Do out = Do::Count;
  if (caps.empty()) return out;
  const float gap = ImGui::GetStyle().ItemSpacing.x;
  const float width = (ImGui::GetContentRegionAvail().x - gap * static_cast<float>(caps.size() - 1)) / static_cast<float>(caps.size());
  ImFont* font = fontOfCaps(caps, width, height, look);
  ImDrawList* list = ImGui::GetWindowDrawList();
  for (std::size_t i = 0; i < caps.size(); ++i) {
    if (i > 0) ImGui::SameLine(0, gap);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    if (blankButton(caps[i].what, std::max(1.0f, width), std::max(1.0f, height), caps[i].enabled)) out = caps[i].what;
    const CapWords words = wordsOfCap(caps[i]);
    const ImVec2 key = sizeIn(font, words.key), word = sizeIn(font, words.word);
    const float em = font->FontSize, pad = 0.45f * em, all = key.x + 2 * pad + 0.6f * em + word.x;
    const float x = at.x + std::max(0.0f, 0.5f * (width - all)), y = at.y + 0.5f * (height - em);
    const std::uint32_t colour = ink(look.greys.type, caps[i].enabled ? 255 : 90);
    list->PushClipRect(at, {at.x + width, at.y + height}, true);
    list->AddRect({x, y - 0.12f * em}, {x + key.x + 2 * pad, y + 1.12f * em}, colour, 0.2f * em, 0, std::max(1.5f, 0.05f * em));
    list->AddText(font, em, {x + pad, y}, colour, words.key.c_str());
    list->AddText(font, em, {x + key.x + 2 * pad + 0.6f * em, y}, colour, words.word.c_str());
    list->PopClipRect();
  }
  return out;
}

}  // namespace huewright::desk
