// A camera profile as an ICC profile for other programs.
#pragma once

#include <cstdint>
#include <expected>
#include <string>
#include <vector>

#include "camera/profile.hpp"

namespace huewright {

/// What the codes are that the ICC profile will be put on.
enum class IccCodes {
  Linear,  ///< proportional to the map's device values: 0..1 are 0..1
  Srgb,    ///< sRGB codes of the map's device values
};

/// An ICC v4 input profile (class scnr, RGB to XYZ, matrix and curves) from the plain 3×3, the veil and the ramp's curve. The same map gives the
/// same bytes: the date is fixed (2000-01-01), the profile ID is the MD5 of the rest. Perfect white is the PCS white; the chromatic-adaptation tag
/// is the identity, for the map leads to D50 by itself.
/// Accuracy: that of applyMatrix to 0.1 ΔE00 for device values between the veil and 1; below the veil it gives black. Curves that are not powers
/// are tables of 4096 entries. The root-polynomial and what is unsure do not fit into such a profile. Errors: a sentence, when a colorant or curve
/// cannot be held.
/// In: a map; its description, ASCII. Source: ICC.1:2022, 8.3.2 and 9.2.
std::expected<std::vector<std::uint8_t>, std::string> iccProfile(const ColourMap& map, IccCodes codes, const std::string& description);

}  // namespace huewright
