// Whether the white that a raw file names can be the white of any lamp.
#pragma once

#include <optional>

#include "colour/matrix.hpp"

namespace huewright {

/// What is known of a camera's colours. Camera RGB is linear and unbalanced.
struct CameraColour {
  Vec3 daylight{1, 1, 1};           ///< multipliers that balance daylight (D65), relative to green; all 1 when unknown
  std::optional<Mat3> to_srgb = {}; ///< camera RGB balanced for daylight to linear sRGB; rows add up to 1
};

/// True for multipliers (relative to green) that are finite, above zero and no further apart than any lamp makes them: 0.25 to 8.
/// With a matrix the white that they make neutral must also lie near the colours of black bodies from 1700 K up, within 0.04 in
/// CIE 1960 u, v. The bounds were chosen, not measured: tungsten and fluorescent lamps with cameras' usual matrices stay within
/// 0.03. Source of the black body's colours: Krystek (1985), Color Research and Application 10.
bool isPlausibleBalance(const Vec3& balance, const CameraColour& camera);

/// False when the coordinates of a neutral, as DNG files give them, cannot be those of a colour: they are shares of saturation,
/// and none may lie above 1. Larger ones are multipliers in the neutral's place, in no order that could be told.
/// Source: DNG 1.6, AsShotNeutral.
bool isPlausibleNeutral(const Vec3& neutral);

}  // namespace huewright
