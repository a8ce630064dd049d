#include "camera/chart_places.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

constexpr double kPreviewCore = 0.5;   // of a patch's side, sampled on the preview
constexpr int kPreviewGrid = 7;        // places along a patch's side

/// True when the horizon does not cross the grid, and it is not seen from behind.
bool sound(const Mat3& h, int columns, int rows) {
  const double det = determinant(h);
  for (const Point& p : {Point{0, 0}, Point(columns, 0), Point(columns, rows), Point(0, rows)}) {
    const double w = dot(h.row[2], Vec3{p.x, p.y, 1});
    if (!(det / (w * w * w) > 0) || !std::isfinite(w)) return false;
  }
  return true;
}

/// The grid's colours on the preview; what reaches outside has no weight.
std::vector<GridColour> glance(const Preview& preview, const ChartGrid& grid, const ChartReference& reference) {
  static const std::array<double, 256> kLight = [] {
    std::array<double, 256> light{};
    for (std::size_t i = 0; i < light.size(); ++i) light[i] = srgbToLinear(static_cast<double>(i) / 255);
    return light;
  }();
  std::vector<GridColour> out(reference.patches.size());
  const auto columns = static_cast<std::size_t>(reference.columns);
  for (std::size_t i = 0; i < out.size(); ++i) {
    const Point first{static_cast<double>(i % columns), static_cast<double>(i / columns)};
    for (int y = 0; y < kPreviewGrid; ++y)
      for (int x = 0; x < kPreviewGrid; ++x) {
        const auto along = [&](int n) { return 0.5 + kPreviewCore * grid.patch_share * ((n + 0.5) / kPreviewGrid - 0.5); };
        const Point at = onPhoto(grid.homography, {first.x + along(x), first.y + along(y)});
        const double column = std::floor(at.x * preview.scale), row = std::floor(at.y * preview.scale);
        if (!(column >= 0 && row >= 0 && column < preview.size.width && row < preview.size.height)) {
          out[i].weight = 0;
          continue;
        }
        const std::size_t line = static_cast<std::size_t>(row) * static_cast<std::size_t>(preview.size.width);
        const std::uint8_t* pixel = preview.rgb.data() + 3 * (line + static_cast<std::size_t>(column));
        for (std::size_t c = 0; c < 3; ++c) out[i].light[c] += kLight[pixel[c]] / (kPreviewGrid * kPreviewGrid);
      }
  }
  return out;
}

bool samePlace(const Quad& a, const Quad& b) { return contains(a, centre(b)) || contains(b, centre(a)); }

}  // namespace

Point onPhoto(const Mat3& homography, Point units) {
  const Vec3 at = homography * Vec3{units.x, units.y, 1};
  return {at[0] / at[2], at[1] / at[2]};
}

std::vector<ChartPlace> chartPlaces(const Preview& preview, std::span<const ChartGrid> grids, const ChartReference& reference) {
  const double right = reference.columns, bottom = reference.rows;
  std::vector<ChartPlace> all;
  for (const ChartGrid& grid : grids) {
    if (!sound(grid.homography, reference.columns, reference.rows) || !(grid.patch_share > 0.1 && grid.patch_share <= 1)) continue;
    const auto corner = [&](double x, double y) { return onPhoto(grid.homography, {x, y}); };
    all.push_back({grid, matchChart(glance(preview, grid, reference), reference), {{corner(0, 0), corner(right, 0), corner(right, bottom), corner(0, bottom)}}});
  }
  std::ranges::stable_sort(all, [](const ChartPlace& a, const ChartPlace& b) { return betterMatch(a.match, b.match); });
  std::vector<ChartPlace> places;
  for (ChartPlace& place : all)
    if (std::ranges::none_of(places, [&](const ChartPlace& other) { return samePlace(place.outline, other.outline); })) places.push_back(std::move(place));
  std::ranges::stable_sort(places, std::ranges::greater{}, [](const ChartPlace& place) { return signedArea(place.outline); });
  return places;
}

}  // namespace huewright
