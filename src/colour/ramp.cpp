#include "colour/ramp.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "colour/delta_e.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

// L*, a*, b*: cream, peach, rose, purple, violet, deep blue-violet.
constexpr std::array<Vec3, 6> kPath{{{96.5, -1, 9}, {86, 11, 27}, {68, 34, 22}, {48, 45, -12}, {28, 36, -44}, {13, 16, -30}}};
constexpr std::size_t kSpans = kPath.size() - 1;
constexpr std::size_t kPieces = 1280;  // steps so short that their lengths add up to the arc's

/// The spline from its first point to its last: the end points count three times over, by reflection.
Vec3 pathAt(double t) {
  const double at = std::clamp(t, 0.0, 1.0) * kSpans;
  const auto span = std::min(static_cast<std::size_t>(at), kSpans - 1);
  const double f = at - static_cast<double>(span), g = 1 - f;
  const auto point = [](std::size_t shifted) -> Vec3 {  // kPath from index -1 on
    if (shifted == 0) return 2.0 * kPath[0] - kPath[1];
    if (shifted == kPath.size() + 1) return 2.0 * kPath[kPath.size() - 1] - kPath[kPath.size() - 2];
    return kPath[shifted - 1];
  };
  return (g * g * g / 6) * point(span) + ((3 * f * f * f - 6 * f * f + 4) / 6) * point(span + 1) +
         ((3 * g * g * g - 6 * g * g + 4) / 6) * point(span + 2) + (f * f * f / 6) * point(span + 3);
}

Lab<D50> labOf(const Vec3& v) { return {v[0], v[1], v[2]}; }

/// Length along the path from its start to each of kPieces + 1 places.
std::array<double, kPieces + 1> lengths() {
  std::array<double, kPieces + 1> sum{};
  for (std::size_t i = 1; i <= kPieces; ++i) {
    const auto place = [](std::size_t k) { return labOf(pathAt(static_cast<double>(k) / kPieces)); };
    sum[i] = sum[i - 1] + deltaE2000(place(i - 1), place(i));
  }
  return sum;
}

}  // namespace

Lab<D50> rampLab(double share) {
  static const auto kLengths = lengths();
  const double want = std::clamp(share, 0.0, 1.0) * kLengths.back();
  const auto after = std::clamp<std::ptrdiff_t>(std::ranges::lower_bound(kLengths, want) - kLengths.begin(), 1, kPieces);
  const auto i = static_cast<std::size_t>(after);
  const double part = (want - kLengths[i - 1]) / (kLengths[i] - kLengths[i - 1]);
  return labOf(pathAt((static_cast<double>(i - 1) + part) / kPieces));
}

const std::array<std::array<unsigned char, 3>, 256>& rampCodes() {
  static const auto kCodes = [] {
    std::array<std::array<unsigned char, 3>, 256> codes;
    for (std::size_t i = 0; i < codes.size(); ++i) codes[i] = toSrgb8(rampLab(static_cast<double>(i) / 255));
    return codes;
  }();
  return kCodes;
}

std::array<unsigned char, 3> rampCode(double share) {
  const double clamped = share >= 0 ? std::min(share, 1.0) : 0.0;  // what is no number counts as nothing
  return rampCodes()[static_cast<std::size_t>(std::lround(255 * clamped))];
}

}  // namespace huewright
