// Samples carried through a camera profile.
#pragma once

#include <optional>
#include <string>

#include "camera/profile.hpp"
#include "judge/samples.hpp"
#include "photo/photo.hpp"

namespace huewright {


struct ThroughProfile {
  Vec3 gain{1, 1, 1};              ///< that brought the photo's grey into the profile's domain
  double colour_off = 0;           ///< largest log ratio between the gain's channels: the light is another than the profile's
  std::vector<Vec3> devices;       ///< of the coloured regions, as photographed
  std::vector<double> outside;     ///< of the coloured regions: ColourMap::extrapolation
};

/// Replaces every patch and paper spot by its colour through the map: means, covariances, slopes. A stored profile is brought to the photo by its
/// greys (their mean gain), a chart's own needs none. In: samples in XYZ (D50) as xyzPixels gives them; the map's device kind must be the photo's.
/// grey: the greys' true colour; it counts as near neutral, where the map's matrix tells its tint in device values.
ThroughProfile carryThrough(const ColourMap& map, bool same_photo, const PhotoFacts& facts, const Xyz<D50>& grey, Samples& samples);

}  // namespace huewright
