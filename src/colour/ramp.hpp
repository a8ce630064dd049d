// The colours of a map: from pale and warm for nothing to deep blue-violet for much.
#pragma once

#include <array>

#include "colour/lab.hpp"

namespace huewright {

/// Colour at a share of the scale, 0..1; what lies outside counts as the end. Equal steps are equal in CIEDE2000 (within 5 %, between
/// shares 1/64 apart), lightness falls all the way, and every colour lies inside sRGB. Seen with protanopia, deuteranopia or tritanopia,
/// lightness still falls all the way, and tenths of the scale stay at least 4 apart.
/// The path is a uniform cubic B-spline in CIELAB (de Boor, A Practical Guide to Splines), run through by its length in CIEDE2000. Its points were
/// chosen by hand, and checked by ramp_test.cpp with the matrices of Machado, Oliveira and Fernandes (2009).
Lab<D50> rampLab(double share);

/// The same as 8-bit sRGB, 256 shares from 0 to 1.
const std::array<std::array<unsigned char, 3>, 256>& rampCodes();

/// The nearest of the 256.
std::array<unsigned char, 3> rampCode(double share);

}  // namespace huewright
