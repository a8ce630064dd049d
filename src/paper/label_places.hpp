// Where the labels of a plot's points go.
#pragma once

#include <span>
#include <vector>

#include "photo/geometry.hpp"

namespace huewright {

/// Millimetres on the page.
struct PlotBox {
  double x = 0, y = 0, width = 0, height = 0;
  bool operator==(const PlotBox&) const = default;
};

bool boxesOverlap(const PlotBox& a, const PlotBox& b);
bool boxInside(const PlotBox& box, const PlotBox& room);

struct LabelWish {
  Point point;                 ///< what it names
  double away = 3;             ///< from the point to the nearest edge of its label, at least
  double width = 0, height = 0;
  bool must = false;           ///< better on top of others than left out
};

struct LabelPlace {
  PlotBox box;
  bool far = false;            ///< a line should tie it to its point, from labelTie
  bool left_out = false;       ///< there was no room; the box means nothing
};

/// Where the line from a label to its point ends: the nearest place on the box.
Point labelTie(const PlotBox& box, Point point);

/// One place for each label, the first served first: as near to its point as there is room, on none of `taken` and no other label, within the room; and not on `rather_not`,
/// points of a curve, where that can be had. No line crosses another's label, nor a box of `taken` that is 4.5 mm or
/// more away from its own point, which it would seem to name; closer ones it passes only where there is no other place. A label without room is left out, unless it must be there: then it lies on others; one that is larger than the
/// room starts at its top left.
std::vector<LabelPlace> placeLabels(std::span<const LabelWish> wishes, const PlotBox& room, std::span<const PlotBox> taken, std::span<const Point> rather_not);

}  // namespace huewright
