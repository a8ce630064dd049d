// Level lines of a map.
#pragma once

#include <span>
#include <vector>

#include "photo/geometry.hpp"

namespace huewright {

/// Lines where a map crosses a level, in its pixels (the centre of the first at 0.5, 0.5); closed lines end where they start. Places where `shown`
/// is false have no line. Source: marching squares, with saddles settled by the mean of the four (Maple 2003, "Geometric design and space planning
/// using the marching squares and marching cube algorithms").
std::vector<std::vector<Point>> contours(Size size, std::span<const float> values, const std::vector<bool>& shown, double level);

}  // namespace huewright
