#include "judge/known_grey.hpp"

#include <array>
#include <cstddef>

namespace huewright {

double luminanceOf(const KnownGrey& grey) { return toXyz(grey.lab).Y; }

double luminanceSd(const KnownGrey& grey) {
  const double t = (grey.lab.L + 16) / 116;
  constexpr double kLinearBelow = 8, kSlope = 27.0 / 24389;  // CIE 15:2018, 8.2.1
  return grey.lab_sd[0] * (grey.lab.L < kLinearBelow ? kSlope : 3 * t * t / 116);
}

std::string_view greyFromName(GreyFrom from) {
  constexpr std::array<std::string_view, 5> kNames{"nothing", "assumed", "told", "kept", "chart"};
  return kNames[static_cast<std::size_t>(from)];
}

}  // namespace huewright
