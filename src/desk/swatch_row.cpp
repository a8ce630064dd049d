#include "desk/swatch_row.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
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

/// Left and right edge of piece i on the screen, on whole pixels, so that nothing shows between two that touch.
struct PieceEdges {
  float left, right;
};
PieceEdges edgesOf(std::size_t i, std::size_t count, float from, float width, float gap) {
  const auto edge = [&](std::size_t k) { return std::round(from + (width + gap) * static_cast<float>(k) / static_cast<float>(count)); };
  return {edge(i), edge(i + 1) - std::round(gap)};
}

/// Whether the colour would melt into one of the greys that swatches lie on. The 16 codes were chosen by eye.
bool melts(const Swatch& swatch, const Look& look) {
  constexpr int kNear = 16;
  return std::ranges::any_of(std::array{look.greys.surround, look.greys.panel}, [&](std::uint8_t grey) {
    return std::ranges::all_of(swatch.rgb, [&](std::uint8_t code) { return std::abs(code - grey) <= kNear; });
  });
}

void drawPiece(ImDrawList* list, const SwatchPiece& piece, ImVec2 from, ImVec2 to, const Look& look) {
  if (!piece.swatch) {
    list->AddRect(from, to, ink(look.greys.line));
    const ImVec2 size = ImGui::CalcTextSize("?");
    list->AddText({(from.x + to.x - size.x) / 2, (from.y + to.y - size.y) / 2}, ink(look.greys.type), "?");
    return;
  }
  list->AddRectFilled(from, to, ink(piece.swatch->rgb));
  if (!piece.swatch->outside) return;
  // What the screen cannot show has a cut corner.
  const float cut = std::min(to.y - from.y, 10 * look.scale);
  list->AddTriangleFilled({to.x - cut, from.y}, {to.x, from.y}, {to.x, from.y + cut}, ink(look.greys.surround));
}

}  // namespace

int swatchRow(const char* name, std::span<const SwatchPiece> pieces, float width, float height, const Look& look, float gap) {
  if (pieces.empty()) return -1;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const bool clicked = ImGui::InvisibleButton(name, {std::max(1.0f, width), std::max(1.0f, height)});
  const bool over = ImGui::IsItemHovered();
  const float pointer = ImGui::GetIO().MousePos.x;
  int out = -1;
  bool melted = false;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const auto [left, right] = edgesOf(i, pieces.size(), at.x, width, gap);
    melted = melted || (pieces[i].swatch && melts(*pieces[i].swatch, look));
    drawPiece(ImGui::GetWindowDrawList(), pieces[i], {left, std::round(at.y)}, {right, std::round(at.y + height)}, look);
    if (pointer < left || pointer >= right) continue;
    if (over) pieceTip(pieces[i]);
    if (clicked) out = static_cast<int>(i);
  }
  // A thin line round all of them, none between two that touch.
  if (melted) ImGui::GetWindowDrawList()->AddRect({std::round(at.x) - 1, std::round(at.y) - 1}, {edgesOf(pieces.size() - 1, pieces.size(), at.x, width, gap).right + 1, std::round(at.y + height) + 1}, ink(look.greys.line));
  return out;
}

int namedSwatches(const char* name, std::span<const SwatchPiece> pieces, float width, float height, const Look& look, float gap) {
  if (pieces.empty()) return -1;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const int clicked = swatchRow(name, pieces, width, height, look, gap);
  const float line = ImGui::GetTextLineHeight(), below = at.y + height;
  ImDrawList* list = ImGui::GetWindowDrawList();
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const auto [left, right] = edgesOf(i, pieces.size(), at.x, width, gap);
    list->PushClipRect({left, below}, {right, below + 2 * line}, true);
    list->AddText({left, below + 0.2f * line}, ink(look.greys.type), pieces[i].words.c_str());
    list->PopClipRect();
  }
  ImGui::SetCursorScreenPos({at.x, below + 1.4f * line});
  return clicked;
}

}  // namespace huewright::desk
