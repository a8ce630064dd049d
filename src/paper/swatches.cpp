#include "paper/swatches.hpp"

#include <algorithm>
#include <array>

#include "colour/rgb.hpp"

namespace huewright {

bool outsideSrgb(const Lab<D50>& lab) {
  constexpr double kHalfCode = 0.5 / 255;
  const LinearSrgb rgb = toLinearSrgb(toXyz(lab));
  const auto [low, high] = std::minmax({srgbFromLinear(rgb.r), srgbFromLinear(rgb.g), srgbFromLinear(rgb.b)});
  return low < -kHalfCode || high > 1 + kHalfCode;
}

void drawSwatches(Pen& pen, const PlotBox& box, std::span<const Lab<D50>> labs) {
  const double each = box.width / static_cast<double>(labs.size());
  // Each reaches to the right end, and the next is laid over it: no white shines through where two edges meet.
  for (std::size_t i = 0; i < labs.size(); ++i) {
    const double left = each * static_cast<double>(i);
    pen.box(box.x + left, box.y, box.width - left, box.height, Ink(toSrgb8(labs[i])));
  }
  const double right = box.x + box.width, bottom = box.y + box.height;
  pen.line(std::array{Point{box.x, box.y}, Point{right, box.y}, Point{right, bottom}, Point{box.x, bottom}, Point{box.x, box.y}}, 0.2);
}

}  // namespace huewright
