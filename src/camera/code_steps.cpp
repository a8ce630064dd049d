#include "camera/code_steps.hpp"

#include <algorithm>
#include <cmath>

#include "colour/rgb.hpp"

namespace huewright {

Vec3 lightPerCode(const Vec3& rgb) {
  Vec3 light;
  for (std::size_t k = 0; k < 3; ++k) {
    const double code = std::min(254.0, 255 * srgbFromLinear(std::clamp(rgb[k], 0.0, 1.0)));
    light[k] = srgbToLinear((code + 1) / 255) - srgbToLinear(code / 255);
  }
  return light;
}

Vec3 lightOfSteps(const Vec3& rgb, const Vec3& rounding) {
  Vec3 light = lightPerCode(rgb);
  for (std::size_t k = 0; k < 3; ++k) {
    double codes = 0;
    for (std::size_t c = 0; c < 3; ++c) codes += std::abs(kRgbFromYcc(k, c)) * (std::floor(rounding[c]) + 1);
    light[k] *= codes;
  }
  return light;
}

}  // namespace huewright
