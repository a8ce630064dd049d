// Finds the printed mat in a photo.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "colour/matrix.hpp"
#include "photo/geometry.hpp"
#include "photo/photo.hpp"
#include "scene/mat_layout.hpp"

namespace huewright {

/// Where the mat lies. All its windows are inside the picture.
struct FoundMat {
  MatLayout layout;               ///< the first of those given that has this sheet; paper cannot be told apart, and does not matter
  Mat3 homography;                ///< the sheet's millimetres to upright full-size pixels
  std::vector<Quad> windows;      ///< in the layout's order; full-size pixels; the sheet's own top left corner first, then clockwise
  std::optional<Quad> aperture;   ///< likewise
  std::vector<int> missed;        ///< ids of markers that were not seen; at most one
  double sd = 0;                  ///< of the markers' corners about the homography, preview pixels in each coordinate

  /// From the sheet's millimetres to full-size pixels.
  Point place(Point mm) const;
  Quad place(const MatRect& rect) const;
};

/// Finds the one mat in a picture, of any of the sheets given, in any turn, tilted to some 40°, partly shaded, with one of its four markers hidden.
/// In: a preview of about 1500 pixels; the markers need some 20 pixels each. A sheet with two markers needs both.
/// Windows' corners are accurate to about 0.3 % of the window's width where the mat takes up half of the picture or more.
/// Not for a camera that bends straight lines visibly.
/// Errors: MatNotFound (also for the same markers in another arrangement); MatMarkers (which are missing); MatMirrored;
/// TwoMats; MatNotFlat; MatCut (what is outside); Internal, OutOfMemory.
Result<FoundMat> findMat(const Preview& preview, std::span<const MatLayout> layouts);

}  // namespace huewright
