#include "paper/series_scales.hpp"

#include <algorithm>
#include <cmath>

#include "paper/plot_axis.hpp"

namespace huewright {
namespace {

constexpr double kPlotHeight = 96, kPlotHead = 6.3, kPlotLeft = 19, kPlotRight = 12;  // mm

}  // namespace

Point SeriesPlotScales::at(double share, double de00) const {
  return {PlotAxis{share_low, share_high, room.x, room.x + room.width}.at(share), PlotAxis{0, top, room.y + room.height, room.y}.at(de00)};
}

SeriesPlotScales seriesPlotScales(const SeriesPlot& plot) {
  constexpr double kLeastTop = 2, kCurveReach = 3, kSides = 0.12, kSnap = 0.1;
  SeriesPlotScales scales;
  scales.room = {kPlotLeft, kPlotHead, kSeriesPage - kPlotLeft - kPlotRight, kPlotHeight};
  double most = std::max(kLeastTop, plot.next.at.high), highest = 0;
  double low = plot.next.at.share, high = low;
  for (const SeriesPlotPanel& panel : plot.panels) {
    most = std::max(most, panel.high);
    low = std::min(low, panel.share);
    high = std::max(high, panel.share);
  }
  scales.share_low = std::max(std::floor((low - kSides) / kSnap) * kSnap, 0.0);
  scales.share_high = std::min(std::ceil((high + kSides) / kSnap) * kSnap, 1.0);
  for (const SeriesPlotStep& step : plot.curve)
    if (step.share >= scales.share_low && step.share <= scales.share_high) highest = std::max(highest, step.de00);
  scales.top = scaleEnd(std::clamp(1.04 * highest, 1.04 * most, kCurveReach * most), kSeriesTicks);
  return scales;
}

std::vector<std::vector<Point>> shownCurve(const std::vector<SeriesPlotStep>& curve, const SeriesPlotScales& scales) {
  std::vector<std::vector<Point>> runs(1);
  const auto visit = [&](double share, double de00) { runs.back().push_back(scales.at(share, de00)); };
  for (std::size_t i = 0; i < curve.size(); ++i) {
    const SeriesPlotStep& here = curve[i];
    const bool in = here.de00 <= scales.top && here.share >= scales.share_low - 1e-9 && here.share <= scales.share_high + 1e-9;
    if (i > 0 && here.share > scales.share_low && curve[i - 1].share < scales.share_high) {
      const SeriesPlotStep& last = curve[i - 1];
      if ((last.de00 <= scales.top) != (here.de00 <= scales.top)) {
        const double t = (scales.top - last.de00) / (here.de00 - last.de00);
        visit(last.share + t * (here.share - last.share), scales.top);
        if (!in) runs.emplace_back();
      }
    }
    if (in) visit(here.share, here.de00);
  }
  std::erase_if(runs, [](const auto& run) { return run.size() < 2; });
  return runs;
}

}  // namespace huewright
