#include "camera/block_grid.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <functional>
#include <numeric>
#include <optional>

namespace huewright {
namespace {

constexpr int kBlocksAcross = 48;  // of the longer side: fine enough for a glare's edge, coarse enough to quiet pixel noise

/// Columns [first, last) whose centres lie inside the convex quad on the row of pixel centres at y.
std::optional<std::array<double, 2>> span(const Quad& quad, double y) {
  double left = 1e300, right = -1e300;
  for (std::size_t i = 0; i < 4; ++i) {
    const Point a = quad.corners[i], b = quad.corners[(i + 1) % 4];
    if ((a.y <= y) == (b.y <= y)) continue;
    const double x = a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x);
    left = std::min(left, x);
    right = std::max(right, x);
  }
  if (left >= right) return std::nullopt;
  return std::array{left, right};
}

/// Adds `count` neighbouring pixels of one row to a block. Most rows hold no clipped pixel, which the caller knows.
void addRun(const float* xyz, const std::uint8_t* clip, int count, bool clean, Block& block) {
  Vec3 sum{};
  for (int i = 0; i < count; ++i)
    for (std::size_t k = 0; k < 3; ++k) sum[k] += static_cast<double>(xyz[3 * i + static_cast<std::ptrdiff_t>(k)]);
  block.xyz = block.xyz + sum;
  block.count += count;
  for (int i = 0; !clean && i < count; ++i) {
    block.top += (clip[i] & 0x07) != 0;
    block.bottom += (clip[i] & 0x38) != 0;
  }
}

}  // namespace

Grid makeGrid(const Raster& raster, const Quad& quad) {
  Grid g;
  g.rounding = raster.rounding;
  g.side = std::max(1, std::max(raster.rect.width, raster.rect.height) / kBlocksAcross);
  g.columns = (raster.rect.width + g.side - 1) / g.side;
  g.rows = (raster.rect.height + g.side - 1) / g.side;
  g.blocks.resize(static_cast<std::size_t>(g.columns) * static_cast<std::size_t>(g.rows));
  for (int row = 0; row < raster.rect.height; ++row) {
    const double y = raster.rect.y + row + 0.5;
    const auto ends = span(quad, y);
    if (!ends) continue;
    const int first = std::max(0, static_cast<int>(std::ceil((*ends)[0] - raster.rect.x - 0.5)));
    const int last = std::min(raster.rect.width, static_cast<int>(std::ceil((*ends)[1] - raster.rect.x - 0.5)));
    const auto line = static_cast<std::ptrdiff_t>(row) * raster.rect.width;
    const float* xyz = raster.xyz.data() + 3 * line;
    const std::uint8_t* clip = raster.clip.data() + line;
    Block* blocks = g.blocks.data() + static_cast<std::ptrdiff_t>(row / g.side) * g.columns;
    const bool clean = first >= last || std::reduce(clip + first, clip + last, std::uint8_t{0}, std::bit_or<>{}) == 0;
    for (int from = first, to = 0; from < last; from = to) {
      Block& b = blocks[from / g.side];
      to = std::min(last, (from / g.side + 1) * g.side);
      b.x += (to - from) * (raster.rect.x + 0.5 * (from + to));
      b.y += (to - from) * y;
      addRun(xyz + std::ptrdiff_t{3} * from, clip + from, to - from, clean, b);
    }
  }
  const int half = (g.side * g.side + 1) / 2;
  for (std::size_t i = 0; i < g.blocks.size(); ++i)
    if (g.blocks[i].count >= half) g.full.push_back(i);
  return g;
}

std::vector<Vec3> smoothed(const Grid& g, const std::vector<Vec3>& rgb) {
  std::vector<Vec3> out(rgb.size());
  for (const std::size_t i : g.full) {
    const int column = static_cast<int>(i) % g.columns, row = static_cast<int>(i) / g.columns;
    Vec3 sum{};
    int n = 0;
    for (int r = std::max(0, row - 1); r <= std::min(g.rows - 1, row + 1); ++r)
      for (int c = std::max(0, column - 1); c <= std::min(g.columns - 1, column + 1); ++c) {
        const auto j = static_cast<std::size_t>(r * g.columns + c);
        if (2 * g.blocks[j].count < g.side * g.side) continue;
        sum = sum + rgb[j];
        ++n;
      }
    out[i] = (1.0 / n) * sum;
  }
  return out;
}

}  // namespace huewright
