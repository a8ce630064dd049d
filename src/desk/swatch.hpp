// Flat colours whose edges touch, and the shapes that tell the bands apart without colour.
#pragma once

#include <span>
#include <string>

#include "desk/theme.hpp"
#include "sitting/state.hpp"

namespace huewright::desk {

struct SwatchField {
  const Swatch* swatch{};
  std::string words;                 ///< below it
};

/// Draws the fields from left to right in a rectangle of that size at the cursor, and goes on below it. gap: pixels of surround between them. Words that do not fit are cut.
/// Gives the index of a field that was clicked, else -1.
int drawSwatches(std::span<const SwatchField> fields, float width, float height, float gap, const Look& look);

/// "There", "Can't say", "Nearly", "Not there".
const char* bandWords(Band band);

/// The band as a shape: a full ring for there, a ring with a notch for nearly, a broken ring for can't say, two apart for not there. At the cursor; `size` high and wide.
void drawBand(Band band, float size, const Look& look);

/// Text in a font, wrapped at the window's edge.
void words(const std::string& text, ImFont* font = nullptr);

}  // namespace huewright::desk
