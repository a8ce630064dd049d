// Pictures that differ from one to the next, known to the last bit: soft, so that JPEG keeps them nearly as they are.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "photo/geometry.hpp"

namespace huewright::fixtures {

inline constexpr Size kMovingSize{96, 64};

/// R, G, B of picture `number`; red falls, blue rises and green moves along, and no two rows are the same.
inline std::vector<std::uint8_t> movingPicture(int number, Size size = kMovingSize) {
  std::vector<std::uint8_t> rgb;
  rgb.reserve(static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height) * 3);
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x) {
      rgb.push_back(static_cast<std::uint8_t>(200 - 100 * y / size.height));
      rgb.push_back(static_cast<std::uint8_t>(128 + std::lround(60 * std::sin(0.08 * x + 0.05 * y + 0.4 * number))));
      rgb.push_back(static_cast<std::uint8_t>(60 + 2 * y + x / 8));
    }
  return rgb;
}

}  // namespace huewright::fixtures
