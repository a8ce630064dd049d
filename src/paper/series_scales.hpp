// Where things lie in the plot of a series.
#pragma once

#include <vector>

#include "paper/label_places.hpp"
#include "paper/series_plot.hpp"

namespace huewright {

/// Width of the page, mm, and steps that a scale has at most.
inline constexpr double kSeriesPage = 190;
inline constexpr int kSeriesTicks = 8;

/// Where the plot itself lies on the page: mm, and ΔE00 at its top.
struct SeriesPlotScales {
  PlotBox room;
  double share_low = 0, share_high = 1, top = 1;
  Point at(double share, double de00) const;
};

/// Scales that show all panels and the next mix, 0 at the bottom; shares with room to either side; of the curve as much as reaches three times as far.
SeriesPlotScales seriesPlotScales(const SeriesPlot& plot);

/// The parts of the curve that the scales show, mm, cut where it crosses the top.
std::vector<std::vector<Point>> shownCurve(const std::vector<SeriesPlotStep>& curve, const SeriesPlotScales& scales);

}  // namespace huewright
