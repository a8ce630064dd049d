// A hard shadow whose edge runs across a region.
#pragma once

#include <vector>

#include "camera/mask.hpp"

namespace huewright {

/// A shadow's edge across a region: two parts that differ like light and shadow, along a nearly straight line.
struct Shade {
  double step = 0;         ///< natural log of the brightness ratio of the two parts, at least ln 1.06; 0: none found
  double share = 0;        ///< of the full blocks, those in the darker part, 0.05..0.95
  bool coloured = false;   ///< the surface is coloured enough to tell a shadow's edge (all channels by one factor) from glare or another grey
  std::vector<bool> dark;  ///< for each block: in the darker part, or in the edge's blur
};

/// Looks for a shadow's edge. A step counts that runs along a line through the region, stands five standard errors clear of what varies along that
/// line, does not go into a parabola for the light, is as high close to the line, and takes all linear sRGB channels by one factor: glare adds the
/// same light to each. On a neutral surface glare looks alike; there the edge must be sharp and the bright part more
/// than a corner.
Shade findShade(const Grid& grid);

/// The mask of the lit part alone: the darker part is Shadow, the rest is masked as if it were the whole region.
std::vector<Kept> maskLit(const Grid& grid, const Shade& shade);

}  // namespace huewright
