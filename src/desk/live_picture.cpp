#include "desk/live_picture.hpp"

#include <algorithm>
#include <imgui.h>

#include "desk/photo_place.hpp"
#include "desk/photo_words.hpp"
#include "desk/region_outlines.hpp"
#include "desk/region_parts.hpp"

namespace huewright::desk {

void drawLivePicture(const LiveNow& now, float width, float height, Drawing& d) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  Field field{at.x, at.y, std::max(1.0f, width), std::max(1.0f, height)};
  ImGui::Dummy({static_cast<float>(field.width), static_cast<float>(field.height)});
  const bool some = now.picture && now.frame && now.frame->size.width > 0 && now.frame->size.height > 0;
  if (some) {
    ImGui::PushClipRect(at, {at.x + width, at.y + height}, true);
    const PhotoPlace place = placeOf(field, now.frame->size, 0, {});
    const double across = 1 / now.picture->scale;
    for (const Textures::Tile& tile : d.textures.tiles(now.picture, {0, 0, now.picture->size.width, now.picture->size.height})) {
      const Point from = place.toScreen({tile.rect.x * across, tile.rect.y * across}), to = place.toScreen({(tile.rect.x + tile.rect.width) * across, (tile.rect.y + tile.rect.height) * across});
      ImGui::GetWindowDrawList()->AddImage(tile.id, {static_cast<float>(from.x), static_cast<float>(from.y)}, {static_cast<float>(to.x), static_cast<float>(to.y)});
    }
    std::vector<Field> taken;
    const auto parts = partsOf(now.regions);
    for (const RegionPart& part : parts) drawOutline(place, part.quad, lineOf(part.kind), false, d.look);
    for (const RegionPart& part : parts) drawNameTag(place, part.quad, part.name, TagAt::Above, false, taken, d.look);
    ImGui::PopClipRect();
  }
  const std::string words = !now.trouble.empty() ? now.trouble : some ? std::string() : now.state_words;
  if (!words.empty()) drawSentence(field, words, some ? WordsAt::Foot : WordsAt::Middle, d.look);
}

}  // namespace huewright::desk
