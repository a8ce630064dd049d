// The 24-patch chart on the bench: 6 columns, 4 rows, the greys in the lowest row.
#pragma once

#include "render2/things.hpp"

namespace huewright::render2 {

/// The height of a board of that width, so that its patches are square.
double boardHeight(double width);

class Board {
 public:
  /// Each patch departs a little from the published one, as a print run does.
  Board(const Place& place, const Eyes& eyes, Random random);
  const Rectangle& rectangle() const { return rectangle_; }
  Vec3 raw(Point place, double px_per_cm, double lamp, double room) const;
  Quad patchCorners(const View& view) const;   ///< outer corners of the corner patches

 private:
  Rectangle rectangle_;
  double pitch_;
  Skin frame_;
  std::vector<Skin> patches_;
};

}  // namespace huewright::render2
