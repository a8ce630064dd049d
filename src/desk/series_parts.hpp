// The parts of the mixes page.
#pragma once

#include <string>

#include "desk/plot.hpp"
#include "desk/views.hpp"

namespace huewright::desk {

/// series_head.cpp: wanted colour, ground, tints, and what may be suggested; with its fields.
void drawSeriesHead(SeriesViewState& view, Drawing& d);
/// series_readings.cpp: the readings as rows, with their fields, and the buttons for the chosen one.
void drawReadings(SeriesViewState& view, Drawing& d);
/// series_next.cpp: what to spray next; what else would do, cautions, and the real part.
void drawNextMix(Drawing& d);
void drawNextMore(Drawing& d);
/// series_distances.cpp: distance against the share of the strong tint. A click on a panel chooses its row.
void drawDistances(SeriesViewState& view, Drawing& d, float width, float height);
/// series_grounds.cpp: the mix over the other grounds; they are added, named, given their numbers and removed here.
void drawOtherGrounds(SeriesViewState& view, Drawing& d);

/// Of reading i, as it is drawn in the plot and in its row.
Mark markOf(const SeriesShown& series, std::size_t reading);

/// "reading 3".
std::string readingWords(std::size_t reading);

/// Whether that panel's mix, coats and carrier are those that were accepted.
bool isAccepted(const Series& series, const SeriesPanel& panel);

}  // namespace huewright::desk
