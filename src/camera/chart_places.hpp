// Where in a photo grids show a chart's colours: one place for each chart, the largest first.
#pragma once

#include <span>
#include <vector>

#include "camera/chart_match.hpp"
#include "photo/geometry.hpp"
#include "photo/photo.hpp"

namespace huewright {

/// Where a chart may lie: what finding a grid, or a person, proposes.
struct ChartGrid {
  Mat3 homography;           ///< chart units to upright full-size pixels: the patch in that column and row has its centre at (column + 0.5, row + 0.5)
  double patch_share = 0.8;  ///< a patch's side over the distance between neighbours' centres, 0.4..1
};

/// A place of the chart's own plane in the photo. In: chart units.
Point onPhoto(const Mat3& homography, Point units);

/// The grid that explains a place best.
struct ChartPlace {
  ChartGrid grid;
  ChartMatch match;   ///< on the preview
  Quad outline;       ///< of all cells, full-size pixels
};

/// In: the photo's preview; grids in any order, also such as reach outside the picture. Those seen from behind or across the horizon are passed over.
/// Grids of which one's middle lies within the other are of one place. Largest area first.
std::vector<ChartPlace> chartPlaces(const Preview& preview, std::span<const ChartGrid> grids, const ChartReference& reference);

}  // namespace huewright
