// The regions of a photo as one list, and what a hand may do to one of them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "photo/geometry.hpp"

namespace huewright::desk {

enum class PartKind { Panel, Card, Grey, Black };

struct RegionPart {
  PartKind kind{};
  std::size_t index = 0;             ///< among those of its kind
  Quad quad;
  std::string name;                  ///< "panel", "panel B", "card", "grey 2", "black"
};

/// All of them: panels, card, greys, black.
std::vector<RegionPart> partsOf(const Regions& regions);

/// The regions with one part's outline changed, or without that part. In: part counts through partsOf.
Regions withQuad(Regions regions, std::size_t part, const Quad& quad);
Regions withoutPart(Regions regions, std::size_t part);

/// The regions with one more of that kind; there is only one card and one black chip, so those take the old one's place. part: where it stands in partsOf.
struct AddedPart {
  Regions regions;
  std::size_t part = 0;
};
AddedPart withPart(Regions regions, PartKind kind, const Quad& quad);

/// Shortest side or diagonal that a region may be dragged to, full-size pixels. Chosen: smaller ones hold too few pixels to measure.
inline constexpr double kSmallestRegion = 4.0;

/// The region with a corner moved towards `to` as far as it neither folds, shrinks to nothing nor leaves the picture. In: a convex, clockwise quad.
Quad cornerMoved(const Quad& quad, std::size_t corner, Point to, Size picture);

/// The region moved by that much, or as far as it stays in the picture.
Quad quadMoved(const Quad& quad, Point by, Size picture);

/// The rectangle between two points, held in the picture; nothing when a side is below kSmallestRegion.
std::optional<Quad> quadBetween(Point a, Point b, Size picture);

}  // namespace huewright::desk
