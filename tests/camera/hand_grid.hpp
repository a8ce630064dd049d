// Grids made by hand for the tests of this room.
#pragma once

#include <algorithm>

#include "camera/mask.hpp"

namespace huewright {

/// A grid of one-pixel blocks, 48 × 36, from luminance.
template <class F>
Grid gridOf(F luminance) {
  Grid g{48, 36, 1, {}, {}};
  for (int y = 0; y < 36; ++y)
    for (int x = 0; x < 48; ++x) {
      const double v = luminance(x, y);
      g.full.push_back(g.blocks.size());
      g.blocks.push_back({x + 0.5, y + 0.5, v * Vec3{0.96, 1, 0.82}, 1, 0, 0});
    }
  return g;
}

inline std::size_t count(const std::vector<Kept>& kept, Kept kind) { return static_cast<std::size_t>(std::ranges::count(kept, kind)); }

}  // namespace huewright
