// Smooth random fields for mottle, flakes, cloth and wood.
#pragma once

#include <algorithm>
#include <vector>

#include "render/random.hpp"

namespace huewright::render {

/// From 0 to 1 without a kink, for t from 0 to 1.
inline double smooth(double t) {
  t = std::clamp(t, 0.0, 1.0);
  return t * t * (3 - 2 * t);
}

/// A field of width × height with mean near 0 and a spread near 1, smooth over `px_x` by `px_y` pixels.
std::vector<float> smoothField(int width, int height, double px_x, double px_y, Random& random);

/// A field of independent standard normals.
std::vector<float> whiteField(int width, int height, Random& random);

}  // namespace huewright::render
