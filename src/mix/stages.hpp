// Panels with and without clear in one series.
#pragma once

#include <string>
#include <vector>

#include "base/caution.hpp"
#include "mix/clear_shift.hpp"
#include "mix/series.hpp"

namespace huewright {

/// The cleared colour that a panel without clear is expected to have.
struct ClearForecast {
  std::size_t panel = 0;               ///< in the series given
  Lab<D50> lab;
  double sd = 0;                       ///< ΔE00, root sum of the axes
};

struct StagedSeries {
  Series series;                       ///< panels of one stage
  std::vector<std::size_t> from;       ///< of each panel kept: its place in the series given
  std::vector<double> extra;           ///< of each panel kept: PanelReading::extra
  std::vector<ClearForecast> forecasts;
  std::vector<Caution> cautions;
};

/// Wet and flashed panels have no clear; cleared and cured ones, and those whose stage is not told, have. Where both are in a series: with half-cleared panels the cleared colour of the
/// others is predicted, with a wider interval, and used; without, the panels without clear are left out. Both are said, and so it is when no panel has its clear.
StagedSeries oneStage(const Series& series);

}  // namespace huewright
