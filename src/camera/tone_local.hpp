// Whether the camera has brightened or darkened parts of the picture: identical grey dots then differ.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "camera/light_map.hpp"

namespace huewright {

/// A printed dot, and spots of the paper close round it.
struct DotSpot {
  PaperSpot dot;
  std::vector<PaperSpot> paper;
};

/// Standard deviation, relative, from dot to dot, of the dot's light over that of the paper beside it, the dots' own noise and the printer's
/// spread taken off; 0 when they agree. Dots with shadows or dirt beside them are outliers and do not count (up to a third).
/// In: dots with paper beside them. Nothing with fewer than four.
std::optional<double> toneSpread(std::span<const DotSpot> dots);

}  // namespace huewright
