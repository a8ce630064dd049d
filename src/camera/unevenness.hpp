// How even a panel is in itself: mottle, and its edge against its middle.
#pragma once

#include <cstddef>

#include "camera/upright.hpp"
#include "colour/delta_e.hpp"

namespace huewright {

/// Numbers in ΔE00 about the panel's own mean. Blocks are 1/24 of the longer side; glare, shadow and burnt-out places are left out.
struct Unevenness {
  /// Root mean square of the blocks' colours about a smooth surface, the pixels' noise taken off. The surface is
  /// quadratic, plus a level for each ring round the panel: what all sides share is an edge and no mottle.
  double mottle = 0, mottle_sd = 0;
  bool mottle_known = false;      ///< false: too few blocks or pixels to tell

  /// Mean of the outer 15 % of each half-extent minus the mean of the inner 50 %, a slope across the panel taken off.
  LabDifference edge_minus_centre;
  double edge_de00 = 0, edge_sd = 0;
  bool edge_known = false;        ///< false: too little of the rim or of the middle shows
  Lab<D50> centre, edge;          ///< corrected colours
  Mat3 edge_covariance{};         ///< of the vector deltaVector(edge, centre).u

  /// Change from one end of the panel to the other along the steepest way, and its standard deviation: the film's or the light's, the photo
  /// cannot tell which.
  double slope = 0, slope_sd = 0;

  std::size_t blocks = 0;         ///< that were used
};

/// Standard deviation of what lens and lamp may add to the rim's brightness against the middle's, relative, after a correction by greys (judgement; no
/// source). Paper all round the panel makes it smaller.
inline constexpr double kUsualBow = 0.01;

/// From an upright picture of the whole panel, already corrected (rectify, correct), and what its pixels show (keptPixels). The outermost 1.5 % of the
/// sides are left out: an outline is never exact. Blocks are averaged in linear light. Their noise comes from the difference between two
/// halves of each block, laid like the squares of a chess-board; what is finer than a quarter of a block counts as noise. Deviations of
/// the results come from how pieces of the panel (a sixth of the longer side; 16 along the rim, 9 in the middle) differ, the edge's also
/// from `bow_sd`.
Unevenness unevenness(const Raster& upright, std::span<const Kept> kept, double bow_sd = kUsualBow);

/// The same from the photo's pixels: the panel is rectified at up to 720 pixels and corrected first. In: pixels that cover the quad, which is clockwise.
Unevenness unevenness(const Raster& photo, const Quad& panel, const Correction& correction, double bow_sd = kUsualBow);

}  // namespace huewright
