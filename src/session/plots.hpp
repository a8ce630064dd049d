// Advice and grounds as drawings.
#pragma once

#include <filesystem>
#include <optional>

#include "paper/grounds_plot.hpp"
#include "paper/series_plot.hpp"
#include "session/advise.hpp"

namespace huewright {

/// Nothing for a name that ends in .svg, whatever its case. Errors: BadChoice.
std::optional<Problem> wrongPlotName(const std::filesystem::path& path);

/// Distances of the panels as read (with sigma's 95 % range), the model's curve at the next mix's coats with the range of the sprayed panel's true distance, its film's spread included. In: advice of that very
/// series and tints. Panels that the fit leaves out are marked; exact copies are drawn once. Errors: SeriesUnusable when nothing is known of the tints, so that there is nothing to draw; those of the fit.
Result<SeriesPlot> seriesPlotOf(const Series& series, const std::optional<TintFile>& tints, const Advice& advice);

/// In: a report of groundsOf.
GroundsPlot groundsPlotOf(const GroundsReport& report);

}  // namespace huewright
