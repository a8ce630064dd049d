#include "photo/raw_white.hpp"

#include <algorithm>
#include <cmath>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

constexpr double kLeastWhite = 0.25, kMostWhite = 8.0, kFarthestWhite = 0.04;
constexpr double kSlightlyMore = 1.01;  // neutrals are rounded to a few digits

struct Uv {
  double u = 0, v = 0;
};

/// CIE 1960 coordinates of a black body. Source: Krystek (1985); within 8e-5 for 1000 to 15000 K.
Uv blackBody(double t) {
  return {(0.860117757 + 1.54118254e-4 * t + 1.28641212e-7 * t * t) / (1 + 8.42420235e-4 * t + 7.08145163e-7 * t * t),
          (0.317398726 + 4.22806245e-5 * t + 4.20481691e-8 * t * t) / (1 - 2.89741816e-5 * t + 1.61456053e-7 * t * t)};
}

double farFromLamps(Uv white) {
  double nearest = 1;
  // In even steps of reciprocal temperature, which are about even steps of colour; the last is 15000 K.
  for (double mired = 1e6 / 1700; mired > 1e6 / 15500; mired -= 10) {
    const Uv body = blackBody(1e6 / mired);
    nearest = std::min(nearest, std::hypot(white.u - body.u, white.v - body.v));
  }
  return nearest;
}

}  // namespace

bool isPlausibleBalance(const Vec3& balance, const CameraColour& camera) {
  for (const double m : balance)
    if (!(m >= kLeastWhite && m <= kMostWhite)) return false;
  if (!camera.to_srgb) return true;
  Vec3 white{};
  for (std::size_t c = 0; c < 3; ++c) white[c] = camera.daylight[c] / balance[c];
  constexpr Mat3 kToXyz = rgbToXyz(kSrgbPrimaries);
  const Vec3 xyz = kToXyz * (*camera.to_srgb * white);
  const double sum = xyz[0] + 15 * xyz[1] + 3 * xyz[2];
  if (!(xyz[0] > 0 && xyz[1] > 0 && xyz[2] > 0)) return false;
  return farFromLamps({4 * xyz[0] / sum, 6 * xyz[1] / sum}) <= kFarthestWhite;
}

bool isPlausibleNeutral(const Vec3& neutral) {
  return std::all_of(neutral.begin(), neutral.end(), [](double share) { return share > 0 && share <= kSlightlyMore; });
}

}  // namespace huewright
