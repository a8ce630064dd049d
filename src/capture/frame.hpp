// One picture of a live camera.
#pragma once

#include <cstdint>
#include <vector>

#include "photo/frame_stack.hpp"
#include "photo/geometry.hpp"

namespace huewright {

struct Frame {
  Size size{};
  std::vector<std::uint8_t> rgb{};  ///< R, G, B interleaved, row by row, as the camera renders them
  std::uint64_t number = 0;         ///< counted from 0 since the camera was opened
  double seconds = 0;               ///< since it was opened
  FrameRounding rounding{};         ///< how it was compressed on its way
};

}  // namespace huewright
