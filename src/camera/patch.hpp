// One flat area of a photo read as a colour with its spread.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "camera/block_grid.hpp"
#include "camera/mask.hpp"
#include "colour/lab.hpp"
#include "photo/photo.hpp"

namespace huewright {

/// What sampling found in a region. Colours are linear, before any correction for light.
struct Patch {
  Xyz<D50> mean;             ///< plain mean of the pixels left after masking
  Mat3 of_mean{};            ///< covariance of that mean (X, Y, Z), from block averages: neighbouring pixels are not independent
  std::size_t pixels = 0;    ///< inside the region, masked ones included
  double masked = 0;         ///< share of the pixels left out, 0..1
  double glare = 0;          ///< share left out as glare, 0..1
  double shadow = 0;         ///< share left out as shadow or dirt, 0..1
  double clipped_top = 0;    ///< share of the kept pixels with a channel at the top of its range, 0..1
  double clipped_bottom = 0; ///< share of the kept pixels with a channel at the bottom, 0..1
  double texture = 0;        ///< standard deviation of the luminance over the mean, from sixth to sixth of the region, without a smooth trend
  double grain = 0;          ///< standard deviation of the luminance over the mean from pixel to pixel, as neighbouring block averages tell it: noise, and sparkle
  /// Relative change per pixel along x and y of the brightest linear sRGB channel: the one that shows the light more than the film.
  std::array<double, 2> trend{};
  std::array<double, 2> trend_sd{};  ///< its standard deviation; zero when nothing could be learned
  std::array<std::array<double, 2>, 3> channel_trend{}, channel_trend_sd{};  ///< the same for each linear sRGB channel
  bool over_edge = false;    ///< one whole side of the region differs from its middle: it seems to run over an edge
  double shade_step = 0;     ///< natural log of the brightness ratio between two parts of the region that differ like light and shadow; 0: none
  double shade_share = 0;    ///< share of the region in the darker part, 0..1
  bool shade_lit = false;    ///< the mean is of the lit part alone, which is 8 % of the region or more
  Point centre;              ///< centroid of the kept pixels, upright full-size pixels
};

/// The share of each half-extent that is cut off a region before it is read, so that a sloppy outline does no harm.
inline constexpr double kInset = 0.12;

/// Whether a shadow's edge is looked for: that takes longer than all else, and who reads a chart's patch sees one by its unevenness.
enum class Shades { Sought, Not };

/// Reads one region. In: pixels that cover the quad; the quad clockwise, already inset. Glare and shadow are found on a low-passed
/// copy (block averages, smoothed), as departures from a robust plane in any of the three linear sRGB channels; what is left is
/// averaged plainly in linear light. Where a shadow's edge runs across the region (findShade), the lit part alone is read.
/// Out: `pixels` = 0 when the quad holds no pixel; `masked` near 1 when nothing trustworthy was left.
Patch sample(const Raster& raster, const Quad& quad, Shades shades = Shades::Sought);

/// A region as it was read, with what was left out of it.
struct SampledBlocks {
  Patch patch;
  Grid grid;
  std::vector<Kept> kept;  ///< one a block; empty when the quad holds no pixel
};

/// The same reading, for who wants to show what was left out.
SampledBlocks sampleBlocks(const Raster& raster, const Quad& quad, Shades shades = Shades::Sought);

}  // namespace huewright
