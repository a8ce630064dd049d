#include "colour/rgb.hpp"

#include <algorithm>
#include <cmath>

namespace huewright {

// IEC 61966-2-1:1999 prints the knee as 0.04045 / 0.0031308, the slope 12.92, the exponent 2.4 and the offset 0.055.
double srgbToLinear(double code) {
  const double c = std::abs(code);
  return std::copysign(c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4), code);
}

double srgbFromLinear(double light) {
  const double v = std::abs(light);
  return std::copysign(v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1.0 / 2.4) - 0.055, light);
}

Xyz<D50> toXyzD50(const LinearSrgb& rgb) {
  const Vec3 v = kSrgbToXyzD50 * Vec3{rgb.r, rgb.g, rgb.b};
  return {v[0], v[1], v[2]};
}

LinearSrgb toLinearSrgb(const Xyz<D50>& xyz) {
  const Vec3 v = kXyzD50ToSrgb * toVec(xyz);
  return {v[0], v[1], v[2]};
}

std::array<unsigned char, 3> toSrgb8(const Lab<D50>& lab) {
  const LinearSrgb rgb = toLinearSrgb(toXyz(lab));
  const auto code = [](double light) {
    return static_cast<unsigned char>(std::lround(255.0 * std::clamp(srgbFromLinear(light), 0.0, 1.0)));
  };
  return {code(rgb.r), code(rgb.g), code(rgb.b)};
}

}  // namespace huewright
