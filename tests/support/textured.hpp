// Pictures with the grain and the soft forms of a photo, for tests of what compression leaves in them.
#pragma once

#include <algorithm>
#include <cmath>
#include <random>

#include "support/fixtures.hpp"

namespace huewright::fixtures {

/// Waves of many lengths and directions, edges, and noise of 2 codes. Every code from about 20 to 235 occurs.
inline Picture textured(Size size, unsigned seed = 1) {
  std::mt19937 engine(seed);
  const auto uniform = [&] { return (static_cast<double>(engine()) + 0.5) / 4294967296.0; };
  struct Wave {
    double x, y, phase, high;
  };
  std::vector<Wave> waves;
  for (int i = 0; i < 40; ++i) {
    const double length = 6 * std::pow(40.0, uniform()), way = 6.2831853 * uniform();
    waves.push_back({6.2831853 * std::cos(way) / length, 6.2831853 * std::sin(way) / length, 6.2831853 * uniform(), 0.02 * std::pow(length, 0.6)});
  }
  Picture picture = flat(size, {0, 0, 0});
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x) {
      double v = (x / 97 + y / 61) % 2 == 0 ? 0.3 : -0.3;
      for (const Wave& w : waves) v += w.high * std::sin(w.x * x + w.y * y + w.phase);
      for (int c = 0; c < 3; ++c) {
        double noise = 0;
        for (int k = 0; k < 4; ++k) noise += 3.46 * (uniform() - 0.5);
        picture.at(x, y)[c] = static_cast<std::uint16_t>(std::lround(std::clamp(128 + 60 * v - 4 * c + noise, 0.0, 255.0)));
      }
    }
  return picture;
}

}  // namespace huewright::fixtures
