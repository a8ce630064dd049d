// A picture to show, never to measure.
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "photo/geometry.hpp"

namespace huewright {

/// R, G, B, A interleaved, row by row; 8-bit sRGB, alpha not multiplied in.
struct Picture {
  Size size;
  double scale = 1;                  ///< pixels of this per full-size pixel of the photo
  std::vector<std::uint8_t> rgba;
};
using PictureRef = std::shared_ptr<const Picture>;

}  // namespace huewright
