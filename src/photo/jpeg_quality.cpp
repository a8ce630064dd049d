#include "photo/jpeg_quality.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdlib>

namespace huewright {
namespace {

// ITU-T T.81, table K.1: luminance quantisation.
constexpr std::array<int, 64> kLuminance{
    16, 11, 10, 16, 24,  40,  51,  61,  12, 12, 14, 19, 26,  58,  60,  55,   //
    14, 13, 16, 24, 40,  57,  69,  56,  14, 17, 22, 29, 51,  87,  80,  62,   //
    18, 22, 37, 56, 68,  109, 103, 77,  24, 35, 55, 64, 81,  104, 113, 92,   //
    49, 64, 78, 87, 103, 121, 120, 101, 72, 92, 95, 98, 112, 100, 103, 99};

int scaled(int entry, int quality) {
  const int percent = quality < 50 ? 5000 / quality : 200 - 2 * quality;
  return std::clamp((entry * percent + 50) / 100, 1, 255);
}

}  // namespace

int estimateQuality(const std::array<std::uint16_t, 64>& luminance) {
  int best = 1;
  long least = -1;
  for (int quality = 1; quality <= 100; ++quality) {
    long apart = 0;
    for (std::size_t i = 0; i < 64; ++i) apart += std::abs(scaled(kLuminance[i], quality) - static_cast<int>(luminance[i]));
    if (least < 0 || apart < least) {
      least = apart;
      best = quality;
    }
  }
  return best;
}

bool onLibraryScale(const std::array<std::uint16_t, 64>& luminance) {
  const int quality = estimateQuality(luminance);
  for (std::size_t i = 0; i < 64; ++i)
    if (scaled(kLuminance[i], quality) != luminance[i]) return false;
  return true;
}

}  // namespace huewright
