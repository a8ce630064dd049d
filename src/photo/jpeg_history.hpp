// What a JPEG's own coefficients tell of its past.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "photo/double_quantisation.hpp"

namespace huewright {

/// Counts of the first nine luminance coefficients in zigzag order after the mean, from the topmost `pixels` pixels of the picture: those rows are
/// decoded as far as coefficients, no further. Empty when there is no such thing to be had (damage, a kind that the library does not read); the
/// picture's decoder says what is wrong then.
std::vector<CoefficientCounts> coefficientCounts(std::span<const std::uint8_t> jpeg, std::int64_t pixels);

}  // namespace huewright
