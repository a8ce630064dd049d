// What the readings of a report are called when they join a series.
#pragma once

#include <span>
#include <vector>

#include "mix/series.hpp"
#include "session/session.hpp"

namespace huewright {

/// The same mix, coats and Lab, to the last digit.
bool sameReading(const SeriesPanel& a, const SeriesPanel& b);

/// Gives the readings names that none of those that are there has, and takes out what is there already: the same name and the same numbers. A tag's name comes first, and is
/// the panel's piece too, whose film all its photos share, unless it was told of another mix or carrier before; else the photo's name, for the strips of a stepped panel as their piece. A name that others have gets a
/// number. In: the series' carrier; readings of seriesOf.
void nameAnew(std::span<const SeriesPanel> there, double carrier_per_tint, std::vector<SeriesPanel>& panels, const JudgeReport& report);

}  // namespace huewright
