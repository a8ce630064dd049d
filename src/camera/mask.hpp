// Which blocks of a region show the surface, and which a lamp's image, a shadow or dirt.
#pragma once

#include <vector>

#include "camera/block_grid.hpp"

namespace huewright {

enum class Kept : unsigned char { Outside, Yes, Glare, Shadow };

/// One answer a block. Glare and shadow are departures from a robust plane in any of the three linear sRGB channels of the smoothed
/// blocks: at least four robust standard deviations and 3.5 % (glare) or 6 % (shadow) at their core, then grown over their soft edge. In a
/// JPEG glare must also be more than the steps in which it keeps a surface without noise.
std::vector<Kept> mask(const Grid& grid);

}  // namespace huewright
