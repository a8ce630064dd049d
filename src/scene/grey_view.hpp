// A grey 8-bit picture that somebody else holds.
#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "photo/geometry.hpp"

namespace huewright {

/// Levels in sRGB's curve, row by row, upright.
struct GreyView {
  Size size;
  std::span<const std::uint8_t> levels;
};

/// The level (0..255) at a point by bilinear interpolation between the pixels' centres; nothing beyond the outermost centres.
std::optional<double> levelAt(const GreyView& picture, Point at);

/// The same of linear light, 0..1: a blurred edge keeps its middle there, which it does not in codes.
std::optional<double> lightAt(const GreyView& picture, Point at);

}  // namespace huewright
