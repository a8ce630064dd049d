// The checked-in sheets of the mat.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "scene/mat_layout.hpp"
#include "support/calib.hpp"

namespace huewright::fixtures {

inline const std::vector<MatLayout>& matLayouts() {
  static const std::vector<MatLayout> kLayouts = readMatLayouts(kCalib).value();
  return kLayouts;
}

inline const MatLayout& matLayout(const std::string& name) { return *std::ranges::find(matLayouts(), name, &MatLayout::name); }

}  // namespace huewright::fixtures
