// Outlines of regions over a photo, told apart by their line and their word, in black and white so that they show on any colour.
#pragma once

#include <string>
#include <vector>

#include "desk/photo_place.hpp"
#include "desk/region_parts.hpp"
#include "desk/theme.hpp"

namespace huewright::desk {

enum class LineStyle { Solid, LongDashes, Dots, DashDot, Thin };

/// Panels have a solid line, the card long dashes, greys dots, a black chip dashes and dots.
LineStyle lineOf(PartKind kind);

/// Draws it into the current window's list. chosen: heavier.
void drawOutline(const PhotoPlace& place, const Quad& quad, LineStyle style, bool chosen, const Look& look);

/// Squares at the corners to take hold of. held: the corner that is dragged or under the pointer, else -1.
void drawHandles(const PhotoPlace& place, const Quad& quad, bool chosen, int held, const Look& look);

enum class TagAt { Above, Left, Right };

/// A name tag by the region's outline, where none of `taken` is, if there is such a place; it is added to them. Nothing for a region out of sight, or where tags would lie on one another.
void drawNameTag(const PhotoPlace& place, const Quad& quad, const std::string& name, TagAt at, bool chosen, std::vector<Field>& taken, const Look& look);

/// What lies under the pointer.
struct Grip {
  int part = -1;                     ///< -1: nothing
  int grip = -1;                     ///< corner 0..3, 4: the whole
  bool operator==(const Grip&) const = default;
};

/// Corners come before bodies; the chosen part's corners before the others'; small parts before large ones. reach: screen pixels about a corner.
Grip gripAt(const PhotoPlace& place, const std::vector<RegionPart>& parts, int chosen, Point screen, double reach);

}  // namespace huewright::desk
