// From colours as photographed to colours as they are: veil, light, greys.
#pragma once

#include <vector>

#include "camera/light.hpp"
#include "camera/veil.hpp"
#include "judge/influences.hpp"
#include "judge/samples.hpp"

namespace huewright {

/// The light from a plain sheet's photo, from blank paper in this one, or from the greys alone. Where paper in this photo shows that a region lies in
/// a shadow, its patch is brought out into the light of the rest, and what that leaves unknown is written beside it. Errors: GreyUnusable.
Result<Light> lightOf(Samples& samples, const MeasureOptions& options);

/// Corrects every colour, and writes down in `at` how far brightness may still be off.
std::vector<Measured> measureColours(const Samples& samples, const Light& light, const Veil& veil, const MeasureOptions& options, bool card_in_photo,
                                     Circumstances& at);

}  // namespace huewright
