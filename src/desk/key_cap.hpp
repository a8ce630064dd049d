// Large keys: the cap of the key and the word of what it does, to be read from some metres and hit with a gloved hand.
#pragma once

#include <span>

#include "desk/keys.hpp"
#include "desk/theme.hpp"

namespace huewright::desk {

struct KeyCap {
  Do what{};
  bool enabled = true;
  const char* word = nullptr;        ///< in place of the table's
};

/// Draws them beside one another, equally wide, across the room's width; with `height` px each. The words are as large as fit. Gives what was clicked or pressed, else Do::Count.
Do keyCaps(std::span<const KeyCap> caps, float height, const Look& look);

}  // namespace huewright::desk
