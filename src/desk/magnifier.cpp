#include "desk/magnifier.hpp"

#include <algorithm>
#include <cmath>
#include <imgui.h>

namespace huewright::desk {

void drawMagnifier(PhotoViewState& view, const PhotoPlace& place, int photo, Point pointer, Drawing& d) {
  const Point at = place.toPhoto(pointer);
  if (!place.field.holds(pointer) || !place.onPhoto(at)) return;
  if (std::floor(at.x) != std::floor(view.probed.x) || std::floor(at.y) != std::floor(view.probed.y)) {
    view.probed = at;
    d.out.push_back(act::Probe{photo, at});
  }
  if (!d.state.probe || d.state.probe->photo != photo) return;
  const ProbeShown& probe = *d.state.probe;
  ImFont* font = d.look.type.small ? d.look.type.small : ImGui::GetFont();
  const float scale = overlayScale(place.field, d.look.scale), pad = 8 * scale, line = font->FontSize * scale / d.look.scale, away = 26 * scale;
  float side = 176 * scale, text = 0;
  for (const std::string& words : probe.lines) text = std::max(text, font->CalcTextSizeA(line, 1e6f, 0, words.c_str()).x);
  // In a small field the pixels give way, never the values.
  side = std::max(40 * scale, std::min(side, static_cast<float>(place.field.height) - 3 * pad - line * static_cast<float>(probe.lines.size() + 1)));
  const float width = std::max(side, text) + 2 * pad, height = side + line * static_cast<float>(probe.lines.size()) + 3 * pad;

  const auto right = static_cast<float>(place.field.left + place.field.width), foot = static_cast<float>(place.field.top + place.field.height);
  float x = static_cast<float>(pointer.x) + away, y = static_cast<float>(pointer.y) + away;
  if (x + width > right) x = static_cast<float>(pointer.x) - away - width;
  if (y + height > foot) y = static_cast<float>(pointer.y) - away - height;
  x = std::clamp(x, static_cast<float>(place.field.left), std::max(static_cast<float>(place.field.left), right - width));
  y = std::clamp(y, static_cast<float>(place.field.top), std::max(static_cast<float>(place.field.top), foot - height));

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
