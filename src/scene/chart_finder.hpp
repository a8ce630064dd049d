// Finds grids of flat patches in a photo, as colour charts have them. Whether one is a chart, its colours must tell (camera/chart_reading.hpp).
#pragma once

#include <vector>

#include "base/problem.hpp"
#include "colour/matrix.hpp"
#include "photo/geometry.hpp"
#include "photo/photo.hpp"

namespace huewright {

/// A place where a grid of patches may lie.
struct GridProposal {
  /// Chart units to upright full-size pixels: the patch in that column and row, from 0, has its centre at (column + 0.5, row + 0.5), and
  /// neighbours' centres are one unit apart. Never mirrored. Which of the grid's long sides is the top is not known.
  Mat3 homography;
  Quad corners;            ///< the outer corners of the corner patches, clockwise from the grid's own top left; full-size pixels; may lie outside the picture
  double patch_share = 0;  ///< a patch's side over the distance between neighbours' centres, 0.4..1; the mean of both directions
  std::vector<bool> seen;  ///< row by row: the patch was seen as a flat area of its own
  double score = 0;        ///< share of the patches seen, less what else belongs to the same grid outside, 0..1
  double sd = 0;           ///< of the patches' centres about the homography, preview pixels in each coordinate
};

/// Grids in any turn, tilted to some 35°, with a frame between the patches that is brighter or darker, partly hidden or in shade, and with up to half
/// of the patches not told from the frame. The same grid may be proposed in several places, shifted by a row or a column, where its end was not
/// seen, also reaching outside the picture. Best score first, at most 24.
/// In: a preview of up to 1500 pixels, patches of 10 pixels at least; columns > rows ≥ 2. Corners of a chart that is sharp and flat are good to some
/// 0.3 % of its width. Not for patches that touch without a visible edge.
/// Errors: Internal, OutOfMemory.
Result<std::vector<GridProposal>> findChartGrids(const Preview& preview, int columns, int rows);

/// A grid that a person marked: the outer corners of its four corner patches (not of the chart's frame), full-size pixels, in any order round it and from
/// any corner. Where findChartGrids sees a grid whose corners lie within 0.4 of the distance between patches, that is what is returned. Else the marks count,
/// corrected by the patches' edges where these are within half of the gap between patches: one proposal for either pair of sides as the long
/// ones, that which agrees with more edges first; the colours tell which is right.
/// Errors: RegionFolded, RegionTooSmall, Internal, OutOfMemory.
Result<std::vector<GridProposal>> gridsByHand(const Preview& preview, const Quad& corners, int columns, int rows);

}  // namespace huewright
