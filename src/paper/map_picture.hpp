// The map of a panel as one picture: the panel, where it differs from the card, the scale, and what to make of it.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "colour/lab.hpp"
#include "paper/contours.hpp"
#include "paper/pen.hpp"

namespace huewright {

/// What a pixel of the map is.
enum class MapPart : std::uint8_t { Shown, Glare, Shadow, Clipped };

/// All that the picture shows. The layers are upright and of one size, row by row.
struct MapSheet {
  std::string title;                      ///< the sentence above it all
  Size size;                              ///< of the layers, at most 4000 pixels a side
  std::vector<std::uint8_t> photo;        ///< the panel as photographed, 8-bit sRGB, interleaved
  std::vector<float> de00;                ///< ΔE00 from the card's mean; what is not finite counts as Clipped
  std::vector<MapPart> parts;             ///< empty: all of it is shown
  double tolerance = 1;                   ///< ΔE00, above 0
  Lab<D50> panel, card;                   ///< means, evened for the light
  std::vector<std::string> sentences;     ///< under the legend
  double smoothed = 0;                    ///< standard deviation, pixels of the map, by which it was smoothed; 0: not
  std::vector<std::string> small_print;   ///< more lines for the end
};

/// The value at the far end of the scale: three times the tolerance, or the 98th percentile of what is shown, rounded up to a number of 1, 1.5, 2,
/// 2.5, 3, 4, 5, 6, 8 times a power of ten, if that is more.
double mapScaleTop(std::span<const float> de00, std::span<const MapPart> parts, double tolerance);

/// The map's colour, 8-bit sRGB, for a value as a share of the scale: 0 at its near end, 1 (and all above) at its far end.
std::array<std::uint8_t, 3> mapColour(double share);

/// Draws it. Both views are about 420 to 720 pixels on their longer side, beside one another, or one above the other where the panel is over 1.6 times
/// as wide as it is high; a small map is enlarged. Errors: Internal for layers of the wrong length or a tolerance of 0, OutOfMemory.
Result<DrawnPicture> mapPicture(const MapSheet& sheet);

/// Corners of the ink of every line of type on it, pixels: for the tests.
Result<std::vector<Quad>> mapTypeBoxes(const MapSheet& sheet);

}  // namespace huewright
