// How a camera's linear values become colours.
#pragma once

#include <optional>

#include "colour/lab.hpp"

namespace huewright {

/// Where the map from camera values to colours came from.
enum class ProfileKind {
  None,     ///< nothing known: sRGB was assumed
  Builtin,  ///< the colour space that the file itself names
};

/// A camera's map to colours. Photos that name their colour space are linear XYZ (D50) already, so that nothing is left to map.
struct CameraProfile {
  ProfileKind kind = ProfileKind::None;
  std::optional<double> loo_de00;  ///< mean leave-one-out error, ΔE00; absent without a chart
};

}  // namespace huewright
