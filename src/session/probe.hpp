// What lies at one place of a photo: the pixels round it, and its colour in numbers.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "judge/reading.hpp"
#include "photo/photo.hpp"

namespace huewright {

struct Probe {
  Rect around;                         ///< the full-size pixels shown
  std::vector<std::uint8_t> srgb;      ///< of them, 8-bit codes for showing, interleaved, row by row
  std::vector<std::uint8_t> clip;      ///< of them, one byte a pixel, as in Raster
  int x = 0, y = 0;                    ///< the pixel that was asked for, full size

  // Of that one pixel.
  bool camera_rgb = false;             ///< what `values` are
  Vec3 values{};                       ///< linear, as in Raster: XYZ (D50), or camera RGB of a raw file
  Vec3 linear_srgb{};                  ///< 1 is white; outside 0..1 where sRGB cannot show it
  Lab<D50> lab;                        ///< as photographed: neither profile nor light
  std::optional<Lab<D50>> corrected;   ///< as the reading has it: through the profile, the veil off, in even light (toEvenLight)
  bool clipped_top = false, clipped_bottom = false;  ///< a channel is at that end of its range
};

/// Looks at the pixel that holds a point. In: the point, upright full-size pixels; side of the square of pixels round it, at least 1: at the picture's edge the square
/// lies as far inwards as it must, and in a smaller picture it is the smaller; a reading of this photo, and the panel that lies there, where one does. The
/// photo opened as it was judged (openAsJudged). One pixel is as noisy as the camera made it. Errors: RegionOutside for a point outside the picture, of Photo::pixels.
Result<Probe> probe(Photo& photo, Point at, int side, const Reading* corrected_by = nullptr, std::optional<std::size_t> panel = {});

}  // namespace huewright
