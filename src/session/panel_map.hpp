// A panel's differences from the card place by place, as layers.
#pragma once

#include <cstdint>
#include <stop_token>
#include <string>
#include <vector>

#include "camera/mask.hpp"
#include "paper/map_picture.hpp"
#include "session/session.hpp"

namespace huewright {

/// The layers are upright and of one size, row by row.
struct PanelMap {
  Quad quad;                          ///< where they lie in the photo, full-size pixels: the panel without its outermost rim
  Size size;                          ///< of the layers, at most 700 pixels a side
  std::vector<std::uint8_t> photo;    ///< the panel as photographed, 8-bit sRGB, interleaved
  std::vector<float> de00;            ///< ΔE00 from the card's mean, evened for the light and smoothed
  std::vector<MapPart> parts;
  std::vector<std::string> sentences; ///< how even the panel is
  double median_de00 = 0;             ///< of the places shown; 0 when none is
  double smoothed = 0;                ///< standard deviation of the smoothing, pixels of the layers
};

/// What a pixel is by its mask and its clip bits (as in Raster): glare and shadow come first.
MapPart mapPart(Kept kept, std::uint8_t clip);

/// The map of the report's main panel in the request's first photo. In: the report that judge gave for this request, of photos without panel and card changed
/// over: there the reading is of two photos. Errors: of Photo; Stopped; OutOfMemory.
Result<PanelMap> panelMap(const JudgeRequest& request, const JudgeReport& report, std::stop_token stop = {});

}  // namespace huewright
