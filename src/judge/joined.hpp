// One colour out of several readings of it.
#pragma once

#include <span>

#include "judge/reading.hpp"

namespace huewright {

/// The colour: geometric means of the Bradford-sharpened channels, so that a factor on one photo's light cancels (plain means of a channel that is not above
/// zero everywhere). Pixels: the fewest; clipped, masked: the most. Deviations are those of the first: refreshDeviations sets them. In: one or more.
ColourReading joined(std::span<const ColourReading* const> readings);

/// Adds the cautions that are not there yet.
void addCautions(Reading& to, const Reading& from);

}  // namespace huewright
