// Colours side by side on the neutral surround: flat, edges touching.
#pragma once

#include <span>
#include <string>

#include "desk/theme.hpp"
#include "sitting/state.hpp"

namespace huewright::desk {

/// A colour with what stands in the tooltip above its numbers. No colour: a frame with a question mark.
struct SwatchPiece {
  const Swatch* swatch = nullptr;
  std::string words;
};

/// Equally wide pieces as one item of that size, px. Hovering tells which colour it is, its numbers, and whether the screen can show it.
void swatchRow(const char* name, std::span<const SwatchPiece> pieces, float width, float height, const Look& look);

}  // namespace huewright::desk
