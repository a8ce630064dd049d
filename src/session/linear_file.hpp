// Files whose stored values are proportional to light although they were read as sRGB, as a chart in them shows.
#pragma once

#include <optional>
#include <string>

#include "base/caution.hpp"
#include "camera/profile_fit.hpp"
#include "photo/photo.hpp"

namespace huewright {

/// True when the chart's greys say that the picture holds linear values, and reading it as linear may set that right: it was read as sRGB for want of
/// another word, or because it says so.
bool looksLinear(const PhotoFacts& facts, Encoding encoding, const ProfileFit& fit);

/// True when reading it as linear has set it right: the greys are proportional to light to within a seventh of the slope, and depart from that at
/// most a quarter as much as before (judgement: the one such picture that was at hand had 0.06 of the slope, and a tenth; pictures with a style
/// have slopes of 0.5 to 0.6 when read as linear). In: the fits of the same chart.
bool clearlyLinear(const ProfileFit& as_srgb, const ProfileFit& as_linear);

/// What is said of it. told: the encoding was given, so that it was obeyed. Nothing when there is nothing to say.
std::optional<Caution> aboutLinear(const std::string& file, bool read_as_linear, Encoding told, const PhotoFacts& facts, const ProfileFit& fit);

/// A profile's map for pictures decoded as sRGB, from one that was fitted to the same files read as linear: it undoes the decoding first. So it is stored,
/// for the next photo without a chart is decoded as sRGB again.
void forSrgbDecoding(ColourMap& map);

/// True for a map that was made so, or fitted to linear values decoded as sRGB. A picture that is read as linear goes through it without its undoing.
bool isOfLinearFiles(const ColourMap& map);

}  // namespace huewright
