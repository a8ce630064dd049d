#include "judge/through_profile.hpp"

#include <algorithm>
#include <cmath>

#include "colour/adapt.hpp"
#include "photo/device.hpp"

namespace huewright {
namespace {

struct ThroughWay {
  const ColourMap& map;
  Mat3 from_xyz;
  Vec3 gain{1, 1, 1};

  Vec3 device(const Xyz<D50>& xyz) const { return from_xyz * toVec(xyz); }

  void carry(Patch& patch) const {
    const Vec3 before = device(patch.mean);
    const Xyz<D50> after = map.apply(before, gain);
    const Mat3 by = map.derivative(before, gain);
    const Mat3 j = by * from_xyz;
    patch.of_mean = j * patch.of_mean * transpose(j);
    // How much more the colour changes than the values did: a tone curve stretches slopes.
    const double stretch = after.Y > 1e-6 ? (by * before)[1] / after.Y : 1;
    patch.texture *= stretch;
    for (std::size_t d = 0; d < 2; ++d) {
      patch.trend[d] *= stretch;
      patch.trend_sd[d] *= std::abs(stretch);
      for (std::size_t k = 0; k < 3; ++k) {
        patch.channel_trend[k][d] *= stretch;
        patch.channel_trend_sd[k][d] *= std::abs(stretch);
      }
    }
    patch.shade_step *= stretch;
    patch.mean = after;
  }

  void carry(PaperSpot& spot) const {
    const Vec3 xyz = inverse(kBradford) * spot.sharp;
    const Vec3 before = from_xyz * xyz;
    const Xyz<D50> after = map.apply(before, gain);
    const Vec3 sharp = kBradford * toVec(after);
    const double stretch = after.Y > 1e-6 ? (map.derivative(before, gain) * before)[1] / after.Y : 1;
    for (std::size_t k = 0; k < 3; ++k) spot.sharp[k] = std::max(sharp[k], 1e-6);
    spot.scatter *= std::abs(stretch);
  }
};

}  // namespace

ThroughProfile carryThrough(const ColourMap& map, bool same_photo, const PhotoFacts& facts, const Xyz<D50>& grey_colour, Samples& samples) {
  ThroughProfile through;
  ThroughWay way{map, inverse(deviceToXyz(facts))};
  if (!same_photo && !samples.greys.empty()) {
    Vec3 log_gain{};
    const auto n = static_cast<double>(samples.greys.size());
    const Mat3 to_balanced = inverse(map.matrix);
    const Vec3 tinted = to_balanced * toVec(grey_colour), neutral = to_balanced * (grey_colour.Y * kWhite<D50>);
    for (const Named& grey : samples.greys) {
      Vec3 device = way.device(grey.patch.mean);
      for (double& v : device) v = std::max(v, 1e-6);
      const Vec3 gain = map.gainFor(device, grey_colour.Y);
      for (std::size_t k = 0; k < 3; ++k) log_gain[k] += std::log(std::max(gain[k] * tinted[k] / neutral[k], 1e-9)) / n;
    }
    for (std::size_t k = 0; k < 3; ++k) way.gain[k] = std::exp(log_gain[k]);
    const auto [low, high] = std::ranges::minmax(log_gain);
    through.colour_off = high - low;
  }
  through.gain = way.gain;
  for (Named& region : samples.coloured) {
    through.devices.push_back(way.device(region.patch.mean));
    through.outside.push_back(map.extrapolation(through.devices.back(), way.gain));
    way.carry(region.patch);
  }
  for (Named& grey : samples.greys) way.carry(grey.patch);
  if (samples.black) way.carry(samples.black->patch);
  for (PaperSpot& spot : samples.paper) way.carry(spot);
  for (DotSpot& dot : samples.dots) {
    way.carry(dot.dot);
    for (PaperSpot& spot : dot.paper) way.carry(spot);
  }
  return through;
}

}  // namespace huewright
