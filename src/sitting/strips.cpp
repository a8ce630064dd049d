#include "sitting/strips.hpp"

#include <cmath>

namespace huewright {

Quad aroundStrips(std::span<const Quad> strips) {
  const auto& first = strips.front().corners;
  const auto& last = strips.back().corners;
  const Point way{centre(strips.back()).x - centre(strips.front()).x, centre(strips.back()).y - centre(strips.front()).y};
  const Point along{first[1].x - first[0].x, first[1].y - first[0].y}, down{first[3].x - first[0].x, first[3].y - first[0].y};
  const auto part = [&](const Point& axis) { return (way.x * axis.x + way.y * axis.y) / std::hypot(axis.x, axis.y); };
  const double x = part(along), y = part(down);
  if (std::abs(x) >= std::abs(y)) return x >= 0 ? Quad{{first[0], last[1], last[2], first[3]}} : Quad{{last[0], first[1], first[2], last[3]}};
  return y >= 0 ? Quad{{first[0], first[1], last[2], last[3]}} : Quad{{last[0], last[1], first[2], first[3]}};
}

}  // namespace huewright
