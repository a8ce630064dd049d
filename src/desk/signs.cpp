#include "desk/signs.hpp"

#include <algorithm>
#include <cmath>
#include <imgui.h>

#include "desk/flow.hpp"

namespace huewright::desk {
namespace {

void afterSign(const char* words, float width) {
  ImGui::Indent(width);
  wrapped(words);
  ImGui::Unindent(width);
}

}  // namespace

void cautionLine(const char* sentence, const Look& look) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float em = ImGui::GetFontSize(), thick = std::max(1.0f, 1.4f * look.scale), x = at.x + 0.5f * em;
  const std::uint32_t line = ink(look.greys.type);
  list->AddTriangle({x, at.y + 0.06f * em}, {at.x + em, at.y + 0.94f * em}, {at.x, at.y + 0.94f * em}, line, thick);
  list->AddLine({x, at.y + 0.38f * em}, {x, at.y + 0.66f * em}, line, thick);
  list->AddLine({x, at.y + 0.74f * em}, {x, at.y + 0.82f * em}, line, thick);
  afterSign(sentence, 1.5f * em);
}

void itemLine(const char* words, const Look& look) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float em = ImGui::GetFontSize(), y = std::floor(at.y + 0.55f * em) + 0.5f;
  ImGui::GetWindowDrawList()->AddLine({at.x + 0.2f * em, y}, {at.x + 0.9f * em, y}, ink(look.greys.type), std::max(1.0f, 1.4f * look.scale));
  afterSign(words, 1.5f * em);
}

void heading(const char* words, const Look& look) {
  if (look.type.head) ImGui::PushFont(look.type.head);
  wrapped(words);
  if (look.type.head) ImGui::PopFont();
  ImGui::Separator();
}

}  // namespace huewright::desk
