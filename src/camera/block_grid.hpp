// A region as a grid of block averages: its low-passed copy, and what its statistics are made from.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "colour/matrix.hpp"
#include "photo/photo.hpp"

namespace huewright {

/// Sums of one block; the grid covers the raster.
struct Block {
  double x = 0, y = 0;  // of pixel centres
  Vec3 xyz{};
  int count = 0, top = 0, bottom = 0;  // pixels: all, and with a channel at an end of its range
  Vec3 mean() const { return (1.0 / count) * xyz; }
};

struct Grid {
  int columns = 0, rows = 0, side = 1;
  std::vector<Block> blocks;
  std::vector<std::size_t> full;  // indices of blocks that lie at least half inside the quad
  std::optional<Vec3> rounding{};  // as in Raster
};

/// Sums the pixels whose centres lie inside the convex, clockwise quad into square blocks, 48 along the longer side.
Grid makeGrid(const Raster& raster, const Quad& quad);

/// Mean over the 3×3 neighbourhood of full blocks, for each full block; in: one value a block.
std::vector<Vec3> smoothed(const Grid& grid, const std::vector<Vec3>& values);

}  // namespace huewright
