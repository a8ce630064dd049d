// A series file: readings of panels with their mixes and coats, for the tint model (docs/series.md).
#pragma once

#include <string>

#include "session/session.hpp"

namespace huewright {

/// Two-space indented JSON with a final newline, format 1. Bare ground (0 coats) becomes the ground of all panels in the photo.
/// The strips of a stepped panel get the photo's name as their piece.
/// In: a report whose panels all have a mix (but bare ground) and coats. sigma: the standard deviation of one panel's difference from the card, root sum of
/// the three axes, ΔE00, of the surest: a camera's rendering makes far ones wide, but alike.
std::string seriesJson(const JudgeReport& report, double carrier_per_tint);

}  // namespace huewright
