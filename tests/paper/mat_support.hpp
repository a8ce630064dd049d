// What the tests of the printed mat share.
#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "paper/mat_sheet.hpp"

namespace huewright::mat_test {

constexpr double kDpi = 150;

inline std::vector<MatLayout> layouts() { return readMatLayouts(HUEWRIGHT_SOURCE_DIR "/calib").value(); }

/// Pixels from the paper's top left of a place on the sheet in mm.
inline double px(const MatLayout& layout, double x, double dpi = kDpi) { return (layout.left + x) * dpi / 25.4; }
inline double py(const MatLayout& layout, double y, double dpi = kDpi) { return (layout.top + y) * dpi / 25.4; }

inline int green(const DrawnPicture& picture, int x, int y) {
  return picture.rgb[3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.size.width) + static_cast<std::size_t>(x)) + 1];
}

}  // namespace huewright::mat_test
