// The middle one of some values.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace huewright {

/// The median; of an even number the upper of the two in the middle. In: at least one value, all finite.
inline double middleValue(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::ranges::nth_element(values, middle);
  return *middle;
}

}  // namespace huewright
