// Reference whites as types, so that colours under different whites cannot be mixed by mistake.
#pragma once

#include "colour/matrix.hpp"

namespace huewright {

/// CIE 1931 chromaticity.
struct Chromaticity {
  double x = 0, y = 0;
};

/// XYZ of a chromaticity at Y = 1. Source: CIE 15:2018, 7.3.
constexpr Vec3 toXyzAtUnitY(Chromaticity c) { return {c.x / c.y, 1.0, (1.0 - c.x - c.y) / c.y}; }

// White points of the CIE standard illuminants for the 1931 2° observer, to four decimals (A: five).
// Source: CIE 15:2018 (FL11 is the former F11).
struct D50 {
  static constexpr Chromaticity xy{0.34570, 0.35850};
};
struct D65 {
  static constexpr Chromaticity xy{0.31270, 0.32900};
};
struct IlluminantA {
  static constexpr Chromaticity xy{0.44758, 0.40745};
};
struct FL11 {
  static constexpr Chromaticity xy{0.38050, 0.37690};
};

/// XYZ of a white at Y = 1.
template <class White>
inline constexpr Vec3 kWhite = toXyzAtUnitY(White::xy);

}  // namespace huewright
