#include "desk/magnifier.hpp"

#include <algorithm>
#include <cmath>
#include <imgui.h>

namespace huewright::desk {

void drawMagnifier(PhotoViewState& view, const PhotoPlace& place, int photo, Point pointer, std::span<const Taken> taken, Drawing& d) {
  const Point at = place.toPhoto(pointer);
  if (!place.field.holds(pointer) || !place.onPhoto(at)) return;
  if (std::floor(at.x) != std::floor(view.probed.x) || std::floor(at.y) != std::floor(view.probed.y)) {
    view.probed = at;
    d.out.push_back(act::Probe{photo, at});
  }
  if (!d.state.probe || d.state.probe->photo != photo) return;
  const ProbeShown& probe = *d.state.probe;
  ImFont* font = d.look.type.small ? d.look.type.small : ImGui::GetFont();
  const float scale = overlayScale(place.field, d.look.scale), pad = 8 * scale, line = font->FontSize * scale / d.look.scale;
  float side = 176 * scale, text = 0;
  for (const std::string& words : probe.lines) text = std::max(text, font->CalcTextSizeA(line, 1e6f, 0, words.c_str()).x);
  // In a small field the pixels give way, never the values.
  side = std::max(40 * scale, std::min(side, static_cast<float>(place.field.height) - 3 * pad - line * static_cast<float>(probe.lines.size() + 1)));
  const auto cornerOf = [&](float square) { return freeCorner(place.field, std::max(square, text) + 2 * pad, square + line * static_cast<float>(probe.lines.size()) + 3 * pad, pad, taken, &pointer); };
  FreeCorner corner = cornerOf(side);
  for (float smaller = side; corner.hidden > 0 && smaller > 100 * scale;) {  // a smaller square may find room beside what is marked
    smaller = std::max(100 * scale, smaller - 16 * scale);
    if (const FreeCorner other = cornerOf(smaller); other.hidden < 0.5 * corner.hidden) corner = other, side = smaller;
  }
  auto x = static_cast<float>(corner.box.left), y = static_cast<float>(corner.box.top);
  const auto width = static_cast<float>(corner.box.width), height = static_cast<float>(corner.box.height);
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddRectFilled({x, y}, {x + width, y + height}, ink(d.look.greys.panel), 4 * scale);
  list->AddRect({x, y}, {x + width, y + height}, ink(d.look.greys.line), 4 * scale, 0, scale);
  x += pad;
  y += pad;
  if (probe.around && probe.around->size.width > 0) {
    const Size size = probe.around->size;
    const float pixel = side / static_cast<float>(std::max(size.width, size.height));
    for (const Textures::Tile& tile : d.textures.tiles(probe.around, {0, 0, size.width, size.height}, false))
      list->AddImage(tile.id, {x + pixel * static_cast<float>(tile.rect.x), y + pixel * static_cast<float>(tile.rect.y)},
                     {x + pixel * static_cast<float>(tile.rect.x + tile.rect.width), y + pixel * static_cast<float>(tile.rect.y + tile.rect.height)});
    const float cx = x + pixel * static_cast<float>(size.width / 2), cy = y + pixel * static_cast<float>(size.height / 2);
    list->AddRect({cx - scale, cy - scale}, {cx + pixel + scale, cy + pixel + scale}, ink(0), 0, 0, 2 * scale);
    list->AddRect({cx, cy}, {cx + pixel, cy + pixel}, ink(255), 0, 0, scale);
  }
  y += side + pad;
  for (const std::string& words : probe.lines) {
    list->AddText(font, line, {x, y}, ink(d.look.greys.type), words.c_str());
    y += line;
  }
}

}  // namespace huewright::desk
