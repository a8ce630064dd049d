// Small, flat, four-sided areas in a picture: what a colour chart's patches look like one by one.
#pragma once

#include <vector>

#include "photo/photo.hpp"

namespace huewright {

/// One area of all but even colour with edges all round. Preview pixels.
struct FlatCell {
  Point centre;
  double area = 0;                 ///< square pixels, without the blurred rim
  double xx = 0, xy = 0, yy = 0;   ///< second moments about the centre, square pixels; s²/12 for an upright square of side s
};

/// Areas from 6 pixels across to a sixth of the picture, of the shape of a parallelogram with sides that differ by less than 2.5 times.
/// An edge is where any channel changes by more than a threshold from pixel to neighbour; several thresholds are tried, for a faint patch
/// leaks into its frame with a high one, and noise breaks it up with a low one; also at half the size. At most 3000, the largest. In: at least 16 × 16 pixels. May throw
/// cv::Exception.
std::vector<FlatCell> flatCells(const Preview& preview);

}  // namespace huewright
