// Where a box may lie over a photo without hiding what is looked at.
#pragma once

#include <span>
#include <vector>

#include "desk/photo_place.hpp"
#include "desk/region_parts.hpp"

namespace huewright::desk {

/// What a box should not hide: a field of the screen, px, and how much a pixel of it counts.
struct Taken {
  Field box;
  double weight = 1;
};

/// The upright boxes round the regions on the screen. Panels and card count four times as much as greys and black; chosen.
std::vector<Taken> boxesOf(const PhotoPlace& place, const std::vector<RegionPart>& parts);

struct FreeCorner {
  Field box;
  double hidden = 0;                 ///< weighted px² of what it hides
};

/// A box of that size, px, in the corner of the field where it hides least of the others: at the foot rather than at the top, at the left rather than at the right. It keeps `away` px from the
/// field's edges where there is room. A corner that holds the pointer is not taken while another is left.
FreeCorner freeCorner(const Field& field, double width, double height, double away, std::span<const Taken> others, const Point* pointer = nullptr);

}  // namespace huewright::desk
