// Embedded ICC profiles, obeyed in floating point.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>

#include "photo/colour_path.hpp"

namespace huewright {

/// What an RGB profile says of a picture.
struct ProfileColour {
  std::string name;                        ///< the profile's own description; "embedded profile" where it has none
  std::shared_ptr<const ColourPath> path;  ///< codes to XYZ (D50)
  std::optional<Mat3> to_xyz;              ///< linear RGB to XYZ (D50); curve-and-matrix profiles only
  bool linear = false;                     ///< its curves are straight within 0.001; never for table profiles
};

/// Reads an ICC profile (v2 or v4; input, display, colour-space or output class) whose device space is RGB.
/// In: the bits of the stored codes. Curves and colorants become tables and a matrix; table profiles (A2B) are followed by
/// relative colorimetry without black-point compensation. The profile's D50 (0.9642, 1, 0.8249) is scaled axis by axis to
/// kWhite<D50>, so that the profile's white comes out exactly neutral.
/// Accuracy: 1e-6 of the white against the same sums in double; table profiles: that of a float pipeline.
/// Nothing when the profile cannot be used. Source: ICC.1:2022, 8.3 to 8.10, F.3.
std::optional<ProfileColour> readProfile(std::span<const std::uint8_t> icc, int bits);

}  // namespace huewright
