#include "mix/stages.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "colour/delta_e.hpp"

namespace huewright {
namespace {

bool hasNoClear(const SeriesPanel& panel) { return !panel.uncleared && (panel.stage == "wet" || panel.stage == "flashed"); }

std::string panelNames(const Series& series, const std::vector<std::size_t>& which) {
  std::string words;
  for (std::size_t i = 0; i < which.size(); ++i) words += (i == 0 ? "" : i + 1 == which.size() ? " and " : ", ") + panelName(series, which[i]);
  words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
  return words;
}

}  // namespace

StagedSeries oneStage(const Series& series) {
  StagedSeries out;
  out.series = series;
  std::vector<ClearedPair> pairs;
  std::vector<std::size_t> bare;
  for (std::size_t i = 0; i < series.panels.size(); ++i) {
    if (series.panels[i].uncleared) pairs.push_back({*series.panels[i].uncleared, series.panels[i].lab});
    if (hasNoClear(series.panels[i])) bare.push_back(i);
  }
  const bool all_bare = bare.size() == series.panels.size() && !bare.empty();
  const std::string are = bare.size() == 1 ? "has no clear yet" : "have no clear yet";
  const ClearShift shift(pairs);
  out.series.panels.clear();
  for (std::size_t i = 0; i < series.panels.size(); ++i) {
    SeriesPanel panel = series.panels[i];
    double extra = 0;
    if (hasNoClear(panel) && !pairs.empty()) {
      const ClearedColour cleared = shift.cleared(panel.lab);
      const Mat3 metric = deltaVector(cleared.lab, cleared.lab).by_panel;
      extra = std::max(trace(metric * cleared.covariance * transpose(metric)), 0.0) / 3;
      out.forecasts.push_back({i, cleared.lab, std::sqrt(3 * extra + series.sigma * series.sigma)});
      panel.lab = cleared.lab;
    } else if (hasNoClear(panel) && !all_bare) {
      continue;
    }
    out.series.panels.push_back(panel);
    out.extra.push_back(extra);
    out.from.push_back(i);
  }
  if (bare.empty()) return out;
  if (!pairs.empty())
    out.cautions.push_back({CautionCode::StagesMixed, fmt::format("{} {}; the cleared colour was predicted from the half-cleared panels", panelNames(series, bare), are)});
  else if (all_bare)
    out.cautions.push_back({CautionCode::StagesMixed, "No panel has its clear yet, and a clear shifts the colour"});
  else
    out.cautions.push_back({CautionCode::StagesMixed, fmt::format("{} {} while others do, and no half-cleared panel shows what the clear does; {} left out",
                                                                  panelNames(series, bare), are, bare.size() == 1 ? "it was" : "they were")});
  return out;
}

}  // namespace huewright
