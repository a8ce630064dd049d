// The 24-patch colour-rendition chart as it lies on the bench: 6 columns A to F, 4 rows 1 to 4, the greys in the lowest row.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "photo/geometry.hpp"
#include "render/place.hpp"
#include "render/spectra.hpp"

namespace huewright::render {

inline constexpr int kChartColumns = 6, kChartRows = 4;

/// One of the chart's colours as published.
struct ChartColour {
  std::string id, name;              ///< "A1", "dark skin"
  Spectrum body{};                   ///< reflectance factor
};

/// Row by row, A1 to F1 first. From calib/charts/chart24.txt. Throws std::runtime_error.
const std::vector<ChartColour>& chartColours();

/// Something that lies on the chart.
struct Cover {
  Quad quad;                         ///< convex, clockwise, in parts of the board's width and height; may reach beyond 0..1
  double y = 0.3;                    ///< luminance factor
  double tilt = 0.15;                ///< departure from flat, relative
};

struct ChartSpec {
  Place place{};                     ///< of the board's outer edge; its height follows from the width, so that patches are square
  bool mirrored = false;             ///< left and right exchanged, as in a picture that was mirrored
  double patch_share = 0.87;         ///< a patch's side over the distance between neighbours' centres, 0..1
  double margin = 0.16;              ///< of frame round the outermost patches, over that distance
  double frame = 0.035;              ///< luminance factor of the board
  double texture = 0.004;            ///< relative spread of the brightness from pixel to pixel, one standard deviation
  double spread = 0;                 ///< from chart to chart: of each patch's brightness, and of its slope over the spectrum, relative, one standard deviation
  std::uint64_t spread_seed = 0;     ///< 0: the picture's; else the same chart in every picture
  bool glossy = false;               ///< mirrors the shop's veil
  std::vector<Glare> glare{};        ///< in parts of the board's width and height
  std::vector<Cover> covers{};
};

struct PatchTruth {
  std::string id, name;
  Quad quad;                         ///< upright pixels, clockwise from the patch's top left as it lies
  Lab<D50> lab;                      ///< body colour of this very patch, its spread included
  double y = 0;                      ///< luminance factor under D50
  double hidden = 0;                 ///< part of its area under a cover or outside the picture, within 0.02
  double glare = 0;                  ///< mean added part of white
};

struct ChartTruth {
  Quad quad;                         ///< outer corners of the corner patches; clockwise from the board's own top left as it lies
  Quad board;                        ///< outer edge of the frame, from the same corner
  bool mirrored = false;
  /// Chart units to picture pixels (homogeneous): the patch in that column and row, from 0, has its centre at (column + 0.5, row + 0.5), and
  /// neighbours' centres are one unit apart. Its determinant is negative when the chart is mirrored.
  Mat3 homography;
  double patch_share = 0;
  std::vector<PatchTruth> patches;   ///< row by row, A1 to F1 first
};

/// The board's height over its width.
double boardShape(const ChartSpec& chart);

/// The bodies of this chart's patches, in the order of chartColours().
std::vector<Spectrum> patchBodies(const ChartSpec& chart, std::uint64_t seed);

}  // namespace huewright::render
