#include "desk/swatch_row.hpp"

#include <algorithm>
#include <cmath>
#include <imgui.h>

namespace huewright::desk {
namespace {

void pieceTip(const SwatchPiece& piece) {
  std::string words = piece.words;
  if (piece.swatch) {
    words += "\n" + piece.swatch->lab;
    if (piece.swatch->outside) words += "\nNo sRGB screen can show this colour: this is the nearest.";
  } else {
    words += "\nNot known yet.";
  }
  ImGui::SetTooltip("%s", words.c_str());
}

}  // namespace

void swatchRow(const char* name, std::span<const SwatchPiece> pieces, float width, float height, const Look& look) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  ImGui::InvisibleButton(name, {std::max(1.0f, width), std::max(1.0f, height)});
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float each = width / static_cast<float>(pieces.size());
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const ImVec2 from{std::round(at.x + each * static_cast<float>(i)), std::round(at.y)}, to{std::round(at.x + each * static_cast<float>(i + 1)), std::round(at.y + height)};
    if (pieces[i].swatch) {
      list->AddRectFilled(from, to, ink(pieces[i].swatch->rgb));
    } else {
      list->AddRect(from, to, ink(look.greys.line));
      const ImVec2 size = ImGui::CalcTextSize("?");
      list->AddText({(from.x + to.x - size.x) / 2, (from.y + to.y - size.y) / 2}, ink(look.greys.type), "?");
    }
    // What the screen cannot show has a cut corner.
    if (pieces[i].swatch && pieces[i].swatch->outside) {
      const float cut = std::min(height, 10 * look.scale);
      list->AddTriangleFilled({to.x - cut, from.y}, {to.x, from.y}, {to.x, from.y + cut}, ink(look.greys.surround));
    }
    if (ImGui::IsItemHovered() && ImGui::GetIO().MousePos.x >= from.x && ImGui::GetIO().MousePos.x < to.x) pieceTip(pieces[i]);
  }
}

}  // namespace huewright::desk
