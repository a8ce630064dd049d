// What lies inside a quad of a rendered picture.
#pragma once

#include <algorithm>
#include <cmath>

#include "render/plane.hpp"
#include "render/scene.hpp"

namespace huewright::render {

struct Statistics {
  Vec3 mean{}, sd{};
};

// Mean and spread of the linear output over the middle of a quad.
inline Statistics statisticsOf(const Rendered& r, const Quad& quad, double keep = 0.7) {
  Vec3 sum{}, squares{};
  double count = 0;
  const Edges edges(inset(quad, 1 - keep));
  const Box box = boxOf(quad, r.size, 0);
  for (int y = box.top; y < box.bottom; ++y)
    for (int x = box.left; x < box.right; ++x) {
      if (edges.inside(x + 0.5, y + 0.5) < 0) continue;
      const std::size_t i = 3 * (static_cast<std::size_t>(y) * r.size.width + x);
      for (std::size_t c = 0; c < 3; ++c) {
        const auto v = static_cast<double>(r.linear[i + c]);
        sum[c] += v;
        squares[c] += v * v;
      }
      count += 1;
    }
  Statistics s;
  for (std::size_t c = 0; c < 3; ++c) {
    s.mean[c] = sum[c] / count;
    s.sd[c] = std::sqrt(std::max(squares[c] / count - s.mean[c] * s.mean[c], 0.0));
  }
  return s;
}

/// Of the green channel.
inline double brightness(const Rendered& r, const Quad& quad) { return statisticsOf(r, quad).mean[1]; }

/// At one pixel.
inline double green(const Rendered& r, Point p) {
  return static_cast<double>(r.linear[3 * (static_cast<std::size_t>(p.y) * r.size.width + static_cast<std::size_t>(p.x)) + 1]);
}

}  // namespace huewright::render
