// Lattices among small areas: which of them lie in the rows and columns of a flat grid seen at an angle.
#pragma once

#include <span>
#include <vector>

#include "colour/matrix.hpp"
#include "scene/flat_cells.hpp"

namespace huewright {

struct LatticeCell {
  int column = 0, row = 0;
  Point centre;                    ///< preview pixels
};

/// Columns run to the right of rows as x does of y: the lattice is never mirrored.
struct Lattice {
  Mat3 homography;                 ///< grid units to preview pixels; cell (c, r) has its centre at (c + 0.5, r + 0.5)
  std::vector<LatticeCell> cells;  ///< each place once
  double sd = 0;                   ///< of the centres about the homography, preview pixels in each coordinate
};

/// All lattices of at least `least` cells, most cells first. Each step of a lattice must be in line with the sides of the cells that it joins, so
/// that rows of letters, keys or windows that lie askew to their own edges do not count.
std::vector<Lattice> lattices(std::span<const FlatCell> cells, std::size_t least);

}  // namespace huewright
