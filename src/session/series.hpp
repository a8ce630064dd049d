// A series file: readings of panels with their mixes and coats, for the tint model (docs/series.md).
#pragma once

#include <optional>
#include <string>

#include "mix/series.hpp"
#include "session/session.hpp"

namespace huewright {

/// What a photo tells of a mix, as a series: its panels with parts, coats and Lab, the wanted colour, the bare ground. Bare ground (0 coats) becomes the ground of
/// all panels in the photo; without it the series has none yet, and readSeries asks for it. The strips of a stepped panel
/// get the photo's name as their piece. A panel with a tag has the tag's name, also as its piece, so that two photos of it are known to be of one film; one whose tag tells another carrier, its own. Numbers are rounded to 4 decimals, as the file has them. sigma: the
/// standard deviation of one panel's difference from the card, root sum of the three axes, ΔE00, of the surest: a camera's rendering makes far ones wide, but
/// alike. In: carrier, volumes to one of tint, 0..1000. Errors: BadChoice when a panel that is not bare ground has no mix or no coats.
Result<Series> seriesOf(const JudgeReport& report, double carrier_per_tint);

/// The carrier of the first panel of which it was told, on the command line or by a tag.
std::optional<double> carrierOf(const JudgeReport& report);

/// The text of its file (seriesText). Errors: those of seriesOf.
Result<std::string> seriesJson(const JudgeReport& report, double carrier_per_tint);

}  // namespace huewright
