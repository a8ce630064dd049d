#include "camera/chart_light.hpp"

#include <algorithm>

namespace huewright {

std::array<double, 2> refinedSlope(std::span<const LitPatch> patches, std::array<double, 2> now, std::size_t parameters) {
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
  const double prior = std::max(squares, 1e-12) / std::max(1.0, free) / (kUsual * kUsual);
  for (std::size_t k = 1; k < 3; ++k) {
    normal(k, k) += prior;
    pull[k] -= prior * now[k - 1];
  }
  normal(0, 0) += 1e-9 * prior;
  const Vec3 step = inverse(normal) * pull;
  return {now[0] + step[1], now[1] + step[2]};
}

}  // namespace huewright
