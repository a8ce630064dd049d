#include "desk/textures.hpp"

#include <algorithm>
#include <cstring>

namespace huewright::desk {

Textures::~Textures() {
  for (const auto& [key, held] : held_) maker_->drop(held.id);
}

std::vector<Textures::Tile> Textures::tiles(const PictureRef& picture, const Rect& part, bool smooth) {
  std::vector<Tile> out;
  if (!picture || picture->rgba.empty()) return out;
  const Rect in = insidePicture(part, picture->size);
  for (int y = in.y / kTile * kTile; y < in.y + in.height; y += kTile)
    for (int x = in.x / kTile * kTile; x < in.x + in.width; x += kTile) {
      const Rect rect{x, y, std::min(kTile, picture->size.width - x), std::min(kTile, picture->size.height - y)};
      Held& held = held_[{{picture.get(), smooth}, {x, y}}];
      if (held.id && held.picture.expired()) {  // another picture stood at this address
        maker_->drop(held.id);
        held.id = {};
      }
      if (!held.id) {
        std::vector<std::uint8_t> bytes(static_cast<std::size_t>(rect.width) * static_cast<std::size_t>(rect.height) * 4);
        for (int row = 0; row < rect.height; ++row)
          std::memcpy(bytes.data() + static_cast<std::size_t>(row) * static_cast<std::size_t>(rect.width) * 4,
                      picture->rgba.data() + (static_cast<std::size_t>(y + row) * static_cast<std::size_t>(picture->size.width) + static_cast<std::size_t>(x)) * 4,
                      static_cast<std::size_t>(rect.width) * 4);
        held.id = maker_->make({rect.width, rect.height}, bytes, smooth);
        held.picture = picture;
      }
      held.used = frame_;
      out.push_back({rect, held.id});
    }
  return out;
}

void Textures::frameDone() {
  ++frame_;
  std::erase_if(held_, [&](const auto& one) {
    const bool old = one.second.picture.expired() || frame_ - one.second.used > kKeep;
    if (old) maker_->drop(one.second.id);
    return old;
  });
}

}  // namespace huewright::desk
