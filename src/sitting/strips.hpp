// The whole panel of which strips were judged.
#pragma once

#include <span>

#include "photo/geometry.hpp"

namespace huewright {

/// The panel that was cut into these strips, which lie side by side in their order. In: at least one.
Quad aroundStrips(std::span<const Quad> strips);

}  // namespace huewright
