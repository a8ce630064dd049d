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

/// Equally wide pieces as one item of that size, px, with `gap` px of surround between them. Hovering tells which colour it is, its numbers, and whether the screen can show it.
/// Gives the place of a piece that was clicked, else -1.
int swatchRow(const char* name, std::span<const SwatchPiece> pieces, float width, float height, const Look& look, float gap = 0);

/// The same with each piece's words below it, cut where they do not fit.
int namedSwatches(const char* name, std::span<const SwatchPiece> pieces, float width, float height, const Look& look, float gap = 0);

}  // namespace huewright::desk
