#include "camera/chart_light.hpp"

#include <algorithm>
#include <cmath>

namespace huewright {

SlopeOver refinedSlope(std::span<const LitPatch> patches, const SlopeOver& now, std::size_t parameters) {
  constexpr double kUsual = 0.05;
  if (patches.size() < 4) return now;
  Mat3 normal;
  Vec3 pull{};
  double squares = 0;
  for (const LitPatch& p : patches) {
    const Vec3 by{1, p.place.x, p.place.y};
    normal = normal + dot(p.by_brightness, p.by_brightness) * outer(by, by);
    pull = pull + dot(p.by_brightness, p.off) * by;
    squares += dot(p.off, p.off);
  }
  const double free = 3.0 * static_cast<double>(patches.size()) - static_cast<double>(parameters);
  const double scatter = std::max(squares, 1e-12) / std::max(1.0, free), prior = scatter / (kUsual * kUsual);
  for (std::size_t k = 1; k < 3; ++k) {
    normal(k, k) += prior;
    pull[k] -= prior * now.log[k - 1];
  }
  normal(0, 0) += 1e-9 * prior;
  const Mat3 inverted = inverse(normal);
  const Vec3 step = inverted * pull;
  return {{now.log[0] + step[1], now.log[1] + step[2]}, {std::sqrt(scatter * inverted(1, 1)), std::sqrt(scatter * inverted(2, 2))}};
}

}  // namespace huewright
