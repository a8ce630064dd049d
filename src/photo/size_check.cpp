#include "photo/size_check.hpp"

#include <cmath>
#include <cstdio>

namespace huewright {
namespace {

/// Millions of pixels in few digits, rounded up, so that the number shown is never inside the limit it breaks.
std::string sizeInWords(double megapixels) {
  char text[32];
  if (megapixels >= 10)
    std::snprintf(text, sizeof text, "%.0f", std::ceil(megapixels));
  else
    std::snprintf(text, sizeof text, "%.4g", megapixels);
  return text;
}

}  // namespace

Result<Size> checkSize(std::uint64_t width, std::uint64_t height, const Limits& limits, const std::string& shown) {
  if (width == 0 || height == 0) return fail(Code::PhotoEmpty, shown);
  const double megapixels = static_cast<double>(width) * static_cast<double>(height) * 1e-6;
  if (megapixels > limits.megapixels)
    return fail(Code::PhotoTooLarge,
                "\"" + shown + "\" has " + sizeInWords(megapixels) + " megapixels; " + sizeInWords(limits.megapixels) + " are allowed");
  const std::uint64_t longest = width > height ? width : height;
  if (longest > static_cast<std::uint64_t>(limits.longest_side))
    return fail(Code::PhotoTooLarge, "\"" + shown + "\" is " + std::to_string(longest) + " pixels long; " +
                                         std::to_string(limits.longest_side) + " are allowed");
  return Size{static_cast<int>(width), static_cast<int>(height)};
}

}  // namespace huewright
