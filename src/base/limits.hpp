// Bounds that keep a hostile or mistaken input from taking the machine down.
#pragma once

#include <cstddef>

namespace huewright {

struct Limits {
  double megapixels = 200.0;              ///< width × height of a picture, in millions; checked before decoding
  int longest_side = 65500;               ///< pixels; the largest side that a baseline JPEG can have
  std::size_t file_bytes = 2ULL << 30;    ///< bytes of a picture file
  std::size_t profile_bytes = 16U << 20;  ///< bytes of an embedded colour profile
  int panels = 12;                        ///< panels judged against one card in one photo
};

}  // namespace huewright
