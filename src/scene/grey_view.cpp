#include "scene/grey_view.hpp"

#include <algorithm>
#include <array>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

template <class Value>
std::optional<double> between(const GreyView& picture, Point at, const Value& value) {
  const double x = at.x - 0.5, y = at.y - 0.5;  // pixel i's centre is at i + 0.5
  if (!(x >= 0 && y >= 0 && x <= picture.size.width - 1 && y <= picture.size.height - 1)) return std::nullopt;
  const int left = static_cast<int>(x), top = static_cast<int>(y);
  const double u = x - left, v = y - top;
  const auto pixel = [&](int c, int r) {
    const auto column = static_cast<std::size_t>(std::min(c, picture.size.width - 1));
    const auto row = static_cast<std::size_t>(std::min(r, picture.size.height - 1));
    return value(picture.levels[row * static_cast<std::size_t>(picture.size.width) + column]);
  };
  return (1 - v) * ((1 - u) * pixel(left, top) + u * pixel(left + 1, top)) + v * ((1 - u) * pixel(left, top + 1) + u * pixel(left + 1, top + 1));
}

}  // namespace

std::optional<double> levelAt(const GreyView& picture, Point at) {
  return between(picture, at, [](std::uint8_t level) { return static_cast<double>(level); });
}

std::optional<double> lightAt(const GreyView& picture, Point at) {
  static const std::array<double, 256> kLight = [] {
    std::array<double, 256> light{};
    for (std::size_t i = 0; i < light.size(); ++i) light[i] = srgbToLinear(static_cast<double>(i) / 255);
    return light;
  }();
  return between(picture, at, [](std::uint8_t level) { return kLight[level]; });
}

}  // namespace huewright
