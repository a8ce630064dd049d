// A picture's size against the limits, before anything is decoded.
#pragma once

#include <cstdint>
#include <string>

#include "base/limits.hpp"
#include "photo/geometry.hpp"

namespace huewright {

/// The size as whole numbers, once it is known to be allowed. In: width and height as the file gives them, pixels.
/// Errors: PhotoEmpty for a side of zero; PhotoTooLarge.
Result<Size> checkSize(std::uint64_t width, std::uint64_t height, const Limits& limits, const std::string& shown);

}  // namespace huewright
