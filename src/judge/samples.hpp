// Everything that a scene holds, read from the photo in one pass.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "camera/light_map.hpp"
#include "camera/patch.hpp"
#include "camera/tone_local.hpp"
#include "photo/photo.hpp"
#include "scene/scene.hpp"

namespace huewright {

/// How a shadow that the rest of the set-up does not share lies on a region.
enum class Shading { None, Across, Over };

struct Named {
  Patch patch;
  Quad quad;             ///< as read: without the rim
  std::string name;      ///< "panel B"
  Shading shade = Shading::None;
  double shade_sd = 0;   ///< what the shadow leaves unknown of the brightness, relative
  double paper_off = 0;  ///< natural logarithm of the paper's brightness near by over the light map's
};

struct Samples {
  std::vector<Named> coloured;       ///< panels in order, then the card if it is in the photo
  std::vector<Named> greys;
  std::optional<Named> black;
  std::vector<PaperSpot> paper;      ///< the usable ones
  std::vector<DotSpot> dots;         ///< likewise, with paper beside them
};

/// Errors: of Photo::pixels; RegionTooSmall, RegionAllMasked.
Result<Samples> samplePhoto(Photo& photo, const Scene& scene);

}  // namespace huewright
