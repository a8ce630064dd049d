#include "camera/paper_spot.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "colour/adapt.hpp"

namespace huewright {

std::optional<PaperSpot> paperSpot(const Raster& raster, const Quad& quad) {
  const Rect box = boundingBox(quad);
  const int left = std::max(box.x, raster.rect.x), right = std::min(box.x + box.width, raster.rect.x + raster.rect.width);
  const int top = std::max(box.y, raster.rect.y), bottom = std::min(box.y + box.height, raster.rect.y + raster.rect.height);
  if (left >= right || top >= bottom) return std::nullopt;

  constexpr int kAcross = 6;  // blocks: coarse enough that neighbours are all but independent, also after a camera's interpolation
  const int side = std::max(1, std::min(right - left, bottom - top) / kAcross);
  struct Part {
    Vec3 xyz{};
    int count = 0;
  };
  const int columns = (right - left + side - 1) / side, rows = (bottom - top + side - 1) / side;
  std::vector<Part> parts(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows));
  std::array<int, 3> burnt{};
  int pixels = 0;
  double sum_x = 0, sum_y = 0;
  for (int y = top; y < bottom; ++y)
    for (int x = left; x < right; ++x) {
      if (!contains(quad, {x + 0.5, y + 0.5})) continue;
      const auto line = static_cast<std::size_t>(y - raster.rect.y), width = static_cast<std::size_t>(raster.rect.width);
      const std::size_t at = line * width + static_cast<std::size_t>(x - raster.rect.x);
      Part& part = parts[static_cast<std::size_t>((y - top) / side * columns + (x - left) / side)];
      for (std::size_t c = 0; c < 3; ++c) {
        part.xyz[c] += static_cast<double>(raster.xyz[3 * at + c]);
        burnt[c] += (raster.clip[at] >> c) & 1;
      }
      ++part.count;
      ++pixels;
      sum_x += x + 0.5;
      sum_y += y + 0.5;
    }
  constexpr int kFewestPixels = 9;
  if (pixels < kFewestPixels || 10 * *std::ranges::max_element(burnt) > pixels) return std::nullopt;
  const auto full = std::ranges::partition(parts, [&](const Part& p) { return 2 * p.count >= side * side; });
  parts.erase(full.begin(), parts.end());
  const auto brightness = [](const Part& p) { return p.xyz[1] / p.count; };
  std::ranges::sort(parts, {}, brightness);
  const std::size_t n = parts.size(), cut = n / 4;
  if (n < 4) return std::nullopt;
  Vec3 sum{};
  int count = 0;
  for (std::size_t i = cut; i < n - cut; ++i) {
    sum = sum + parts[i].xyz;
    count += parts[i].count;
  }
  PaperSpot spot{{sum_x / pixels, sum_y / pixels}, kBradford * ((1.0 / count) * sum), 0};
  constexpr double kBlack = 0.002;  // of white: nothing that shows paper in any usable light
  if (!(*std::ranges::min_element(spot.sharp) > kBlack)) return std::nullopt;
  // Half of a normal distribution lies within 0.6745 standard deviations; the mean of its middle half has 1.19 times the variance of the plain mean.
  const double deviation = (brightness(parts[n - 1 - cut]) - brightness(parts[cut])) / (2 * 0.6745);
  spot.scatter = deviation * std::sqrt(1.19 / static_cast<double>(n)) / brightness(parts[n / 2]);
  return spot;
}

}  // namespace huewright
