// How well the colours of a grid agree with a chart's published ones, whatever camera, light and tone curve stand between them.
#pragma once

#include <span>
#include <vector>

#include "colour/chart_reference.hpp"
#include "colour/matrix.hpp"

namespace huewright {

/// How a chart lies in a grid.
struct ChartArrangement {
  bool turned = false;    ///< by half a turn: the chart's first patch is the grid's last
  bool mirrored = false;  ///< its columns run the wrong way
  bool operator==(const ChartArrangement&) const = default;
};

/// Index in the grid (row by row) of the chart's patch with that index.
std::size_t gridIndex(std::size_t patch, int columns, int rows, ChartArrangement arrangement);

/// One place of the grid.
struct GridColour {
  Vec3 light{};        ///< linear R, G, B of some camera or colour space; negative values are allowed
  double weight = 1;   ///< 0: not to be used (outside the picture, burnt out), 1: fully
};

struct ChartMatch {
  ChartArrangement arrangement;
  double error = 0;             ///< mean ΔE*ab of the better five sixths of the patches that were used; infinite when too few could be
  std::vector<double> off;      ///< ΔE*ab of each patch in the reference's order; infinite where the weight was 0
  std::vector<Lab<D50>> seen;   ///< each patch's colour as the fit has it, likewise; the published one where the weight was 0
  std::size_t agreeing = 0;     ///< patches within kSamePatch
  Mat3 to_xyz;                  ///< from light, after the curves, to XYZ (D50)
  std::array<double, 2> slope{};///< natural log of the light's change across half of the grid's width and height
};

/// A patch farther off than this is not the chart's, or something lies on it. ΔE*ab after the fit. Tuned: see chart_reading.cpp.
inline constexpr double kSamePatch = 18;

/// Fits, in this order and several times over: for each channel a monotone curve through the neutral patches (piecewise straight between
/// logarithms; once with it and once without, the better one counts); a plain 3×3 onto XYZ, least squares in CIELAB by its derivatives at the
/// published colours; and an even slope of the light across the grid (at most 1.6 times across). Patches that are off lose their weight (Geman and
/// McClure 1985, scale from 40 down to 8 ΔE*ab); where that leaves an error above 10, it is begun again from the best of 60 draws of five patches, so
/// that a third of them may show anything. Same input, same output.
/// In: one colour for each of the reference's patches, row by row in the grid.
ChartMatch matchChart(std::span<const GridColour> grid, const ChartReference& reference, ChartArrangement arrangement);

/// The best of all four arrangements: most agreeing patches, then the smallest error.
ChartMatch matchChart(std::span<const GridColour> grid, const ChartReference& reference);

/// True when a explains the grid better than b.
bool betterMatch(const ChartMatch& a, const ChartMatch& b);

}  // namespace huewright
