// CIEDE2000 of many pixels against one colour, in single precision.
#pragma once

#include <span>

#include "colour/lab.hpp"

namespace huewright {

/// The colour difference of each pixel from one colour, kL = kC = kH = 1. In: xyz interleaved, linear, relative to D50 with white Y = 1, finite,
/// −0.05 … 2; correction is applied to each pixel first (the light); as many pixels are done as both spans hold.
///
/// Accuracy against deltaE2000 in double: 0.002 + 1e-4·ΔE for a chroma up to 140 (seen: 2e-4), with two exceptions that lie in the formula
/// itself. Where the hues of pixel and colour are opposed to within 1e-4 degrees, either of the two values that meet there may come out
/// (the published tie at 180°). And a pixel with a chroma below 0.001 has no hue in single precision: against a strong violet blue that is
/// worth up to 0.05.
/// The same bits on every machine: additions, products, quotients and roots only, one after the other. Errors: none.
/// Source: as deltaE2000, by directions instead of angles: the mean hue is the direction of a sum or a difference of two vectors, the cosines
/// of its multiples are polynomials, and the rotation term is a power series of the distance from 275° (delta_map.cpp).
void deltaMap(std::span<const float> xyz, const Mat3& correction, const Lab<D50>& colour, std::span<float> de00);

}  // namespace huewright
