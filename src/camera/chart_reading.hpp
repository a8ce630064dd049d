// Reads a colour chart's patches from a photo, once it is sure that they are the chart's.
#pragma once

#include <expected>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "camera/chart_places.hpp"
#include "camera/patch.hpp"
#include "colour/chart_reference.hpp"
#include "photo/photo.hpp"

namespace huewright {

enum class ChartFault {
  NoGrid,         ///< nothing to read was given
  NotItsColours,  ///< a grid, but not this chart
  Mirrored,
  CutOff,
  Hidden,
  Glare,
  BurntOut,
  TooSmall,
  PhotoProblem,   ///< the photo could not be read: `problem`
};

/// Why a chart was not read.
struct ChartRefusal {
  ChartFault fault{};
  std::string sentence;              ///< what is wrong, plainly
  std::vector<std::string> patches;  ///< the names of those at fault, in the chart's order
  std::optional<Problem> problem;
  double error = 0;                  ///< of the best fit, as ChartReading::error; infinite where there was none
};

enum class ChartPatchState {
  Good,
  Glare,     ///< a lamp or a window is reflected in it
  BurntOut,  ///< a channel is at its top
  Covered,   ///< it is not even, or its colour is another: something lies on it, a shadow's edge runs across it, or it is stained
};

struct ChartSample {
  std::string name;
  Quad quad;                ///< as read: without rim and blur; full-size pixels; the chart's own top left corner first, then clockwise
  Patch patch;              ///< mean and of_mean in what Raster holds: XYZ (D50), or camera RGB; trends always in linear sRGB
  Lab<D50> reference;
  double uneven = 0;        ///< share of a 5 × 5 grid of its parts that differ from their median by more than kUnevenPart, 0..1
  double off = 0;           ///< ΔE*ab from the published colour after the check's own fit; infinite where the fit left it out
  ChartPatchState state = ChartPatchState::Good;  ///< others are not to be used
};

struct ChartReading {
  std::vector<ChartSample> samples;  ///< in the reference's order, all of them
  Mat3 homography;                   ///< of the chart's own units, its first patch at (0.5, 0.5), to upright full-size pixels
  Quad corners;                      ///< outer corners of the corner patches, the chart's own top left first, then clockwise
  int quarter_turns = 0;             ///< clockwise, by which the chart lies turned in the upright picture, to the nearest: 0..3
  double error = 0;                  ///< mean ΔE*ab of the better five sixths of the patches after the check's fit (matchChart)
  std::array<double, 2> slope{};     ///< natural log of the light's change across half of the chart's width and height, as that fit has it
  std::vector<Quad> others{};        ///< outlines of other charts in the photo, largest first: not used
  std::string passed_over{};         ///< why a larger one was not used; empty: this is the largest
};

/// Below this side no statistics of a patch are left after its rim: pixels.
inline constexpr double kSmallestPatch = 8;
/// ΔE*ab from the patch's median colour at which a part of it counts as not of the patch.
inline constexpr double kUnevenPart = 8;
/// Patches in glare, burnt out or covered that are left out before a chart is refused; of covered ones, one.
inline constexpr std::size_t kMostLeftOut = 2;

/// Reads the chart from the one of the grids that shows it. On the preview, each grid's colours are matched in all arrangements (half a turn, mirrored; a
/// quarter of a turn is another grid); the best grid is then read at full size and checked again: its colours as a whole, each patch's
/// colour, evenness, glare and clipping. Works on camera RGB as on XYZ: the fit takes any linear channels. Of several charts the largest that can be
/// read is; where none can, the refusal is the largest one's.
/// In: the photo's preview of up to 1500 pixels; grids, in any order, also such as reach outside the picture.
/// It cannot tell a print of the chart from the chart, nor a veil of glare that lies evenly over a patch from another exposure of it.
std::expected<ChartReading, ChartRefusal> readChart(Photo& photo, const Preview& preview, std::span<const ChartGrid> grids, const ChartReference& reference);

}  // namespace huewright
