#include "session/series.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "session/rounded.hpp"
#include "session/series_text.hpp"

namespace huewright {
namespace {

Lab<D50> roundedLab(const Lab<D50>& lab) { return {rounded(lab.L), rounded(lab.a), rounded(lab.b)}; }

}  // namespace

Result<Series> seriesOf(const JudgeReport& report, double carrier_per_tint) {
  Series series;
  series.carrier_per_tint = rounded(carrier_per_tint);
  std::vector<double> sigmas;
  // Two photographs of two stepped panels must not give them one name when their files are joined.
  const std::string piece = report.photo.path.stem().empty() ? "stepped panel" : report.photo.path.stem().string();
  for (std::size_t i = 0; i < report.reading.panels.size(); ++i) {
    const Lab<D50> lab = roundedLab(report.reading.panels[i].lab);
    if (report.coats[i] == 0) {
      series.ground = NamedGround{{}, lab};
      continue;
    }
    if (!report.mixes[i] || !report.coats[i]) return fail(Code::BadChoice, "A series needs to know the mix and the coats of every panel");
    SeriesPanel panel;
    panel.strong = rounded(report.mixes[i]->strong);
    panel.weak = rounded(report.mixes[i]->weak);
    panel.coats = rounded(*report.coats[i]);
    panel.lab = lab;
    const bool tagged = i < report.panel_tags.size() && !report.panel_tags[i].empty();
    if (tagged) panel.piece = report.panel_tags[i];
    else if (report.stepped) panel.piece = piece;
    if (i < report.carriers.size() && report.carriers[i] && rounded(*report.carriers[i]) != series.carrier_per_tint) panel.carrier_per_tint = rounded(*report.carriers[i]);
    if (tagged) {
      panel.name = report.panel_tags[i];
      if (report.stepped) panel.name += fmt::format(", {:g} {}", panel.coats, panel.coats == 1 ? "coat" : "coats");
    }
    series.panels.push_back(std::move(panel));
    sigmas.push_back(std::sqrt(std::max(0.0, trace(report.verdicts[i].covariance))));
  }
  series.target = roundedLab(report.reading.card.lab);
  if (!sigmas.empty()) series.sigma = rounded(std::ranges::min(sigmas));
  return series;
}

std::optional<double> carrierOf(const JudgeReport& report) {
  const auto told = std::ranges::find_if(report.carriers, [](const auto& one) { return one.has_value(); });
  return told == report.carriers.end() ? std::nullopt : *told;
}

Result<std::string> seriesJson(const JudgeReport& report, double carrier_per_tint) {
  const auto series = seriesOf(report, carrier_per_tint);
  if (!series) return std::unexpected(series.error());
  return seriesText(*series);
}

}  // namespace huewright
