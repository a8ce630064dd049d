// Numbers as the files that are written show them.
#pragma once

#include <cmath>

namespace huewright {

/// To four decimals; never -0.
inline double rounded(double v) { return std::round(v * 1e4) / 1e4 + 0.0; }

}  // namespace huewright
