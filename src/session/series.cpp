#include "session/series.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "session/rounded.hpp"

namespace huewright {
namespace {

using Json = nlohmann::ordered_json;

Json labOf(const Lab<D50>& lab) { return Json::array({rounded(lab.L), rounded(lab.a), rounded(lab.b)}); }

}  // namespace

std::string seriesJson(const JudgeReport& report, double carrier_per_tint) {
  Json json;
  json["format"] = 1;
  json["carrier_per_tint"] = rounded(carrier_per_tint);
  Json panels = Json::array();
  std::vector<double> sigmas;
  // Two photographs of two stepped panels must not give them one name when their files are joined.
  const std::string piece = report.photo.path.stem().empty() ? "stepped panel" : report.photo.path.stem().string();
  for (std::size_t i = 0; i < report.reading.panels.size(); ++i) {
    const Lab<D50>& lab = report.reading.panels[i].lab;
    if (report.coats[i] == 0) {
      json["ground"] = {{"lab", labOf(lab)}};
      continue;
    }
    Json panel = Json::object();
    if (report.mixes[i]) {
      panel["strong"] = rounded(report.mixes[i]->strong);
      panel["weak"] = rounded(report.mixes[i]->weak);
    }
    panel["coats"] = rounded(report.coats[i].value_or(0));
    panel["lab"] = labOf(lab);
    if (report.stepped) panel["piece"] = piece;
    panels.push_back(std::move(panel));
    sigmas.push_back(std::sqrt(std::max(0.0, trace(report.verdicts[i].covariance))));
  }
  json["target"] = {{"lab", labOf(report.reading.card.lab)}};
  if (!sigmas.empty()) json["sigma"] = rounded(std::ranges::min(sigmas));
  json["panels"] = std::move(panels);
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace huewright
