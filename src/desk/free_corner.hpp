// Where a box may lie over a photo without hiding what is looked at.
#pragma once

#include <span>
#include <vector>

#include "desk/photo_place.hpp"
#include "desk/region_parts.hpp"

namespace huewright::desk {

/// The upright boxes round the regions on the screen, px.
std::vector<Field> boxesOf(const PhotoPlace& place, const std::vector<RegionPart>& parts);

/// A box of that size, px, in the corner of the field where it hides least of the others: at the foot rather than at the top, at the left rather than at the right. It keeps `away` px from the
/// field's edges where there is room. A corner that holds the pointer is not taken while another is left.
Field freeCorner(const Field& field, double width, double height, double away, std::span<const Field> others, const Point* pointer = nullptr);

}  // namespace huewright::desk
