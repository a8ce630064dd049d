#include "judge/joined.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "colour/adapt.hpp"

namespace huewright {

ColourReading joined(std::span<const ColourReading* const> readings) {
  ColourReading r = *readings.front();
  Vec3 logs{}, sum{};
  std::array<bool, 3> positive{true, true, true};
  for (const ColourReading* reading : readings) {
    const Vec3 sharp = kBradford * toVec(reading->xyz);
    for (std::size_t k = 0; k < 3; ++k) {
      positive[k] = positive[k] && sharp[k] > 0;
      if (sharp[k] > 0) logs[k] += std::log(sharp[k]);
      sum[k] += sharp[k];
    }
    r.pixels = std::min(r.pixels, reading->pixels);
    r.clipped = std::max(r.clipped, reading->clipped);
    r.masked = std::max(r.masked, reading->masked);
  }
  const auto n = static_cast<double>(readings.size());
  Vec3 mean;
  for (std::size_t k = 0; k < 3; ++k) mean[k] = positive[k] ? std::exp(logs[k] / n) : sum[k] / n;
  const Vec3 xyz = inverse(kBradford) * mean;
  r.xyz = {xyz[0], xyz[1], xyz[2]};
  r.lab = toLab(r.xyz);
  return r;
}

void addCautions(Reading& to, const Reading& from) {
  for (const Caution& c : from.cautions)
    if (std::ranges::find(to.cautions, c) == to.cautions.end()) to.cautions.push_back(c);
}

}  // namespace huewright
