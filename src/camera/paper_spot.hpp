// A spot of plain white paper, read from a photo.
#pragma once

#include <optional>

#include "colour/matrix.hpp"
#include "photo/photo.hpp"

namespace huewright {

/// A spot of plain paper in the photo.
struct PaperSpot {
  Point at;                ///< centroid, upright full-size pixels
  Vec3 sharp{};            ///< mean light, Bradford-sharpened channels, all above 0
  double scatter = 0;      ///< relative standard deviation of that mean, from the spot's own pixels
};

/// Reads one spot: the mean of the middle half of its blocks by brightness, so that a speck or a pencil line does no harm.
/// In: pixels that cover the quad; a convex quad, clockwise. Nothing when it holds fewer than nine pixels, a channel is burnt out in over a
/// tenth of them, or the spot is black.
std::optional<PaperSpot> paperSpot(const Raster& raster, const Quad& quad);

}  // namespace huewright
