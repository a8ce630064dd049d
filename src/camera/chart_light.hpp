// How evenly a chart is lit, as its colours show it.
#pragma once

#include <array>
#include <span>

#include "colour/matrix.hpp"
#include "photo/geometry.hpp"

namespace huewright {

/// One patch, as a fit without the light's slope has it.
struct LitPatch {
  Vec3 by_brightness{};  ///< change of its fitted colour by the natural log of its brightness, in the fit's own weighted units
  Vec3 off{};            ///< fitted less published, the same units
  Point place;           ///< -1..1 along either side of the chart
};

/// An even slope of the light over the picture, as a chart shows it from patch to patch.
struct LightSlope {
  Point middle;                         ///< of the chart, pixels
  std::array<double, 2> per_pixel{};    ///< natural log of the light along x and y
  std::array<double, 2> sd{};           ///< of these, one standard deviation
};

/// The same over one chart: from its middle to an edge.
struct SlopeOver {
  std::array<double, 2> log{};
  std::array<double, 2> sd{0.05, 0.05};
};

/// A better slope of the light: natural log of its change from the chart's middle to an edge, along x and y. A Gauss-Newton step of least squares
/// with a level of its own and a prior of 0 ± 0.05 (judgement: light that falls off by a tenth over the chart), held against the scatter that the
/// patches show. In: patches as corrected by the slope `now`; parameters of the map, which the same patches had to fix. Fewer than four patches: `now`.
/// Out: the standard deviations are those of that posterior.
SlopeOver refinedSlope(std::span<const LitPatch> patches, const SlopeOver& now, std::size_t parameters);

}  // namespace huewright
