#include "session/series_text.hpp"

#include <nlohmann/json.hpp>

namespace huewright {
namespace {

using SeriesFields = nlohmann::ordered_json;

SeriesFields labFields(const Lab<D50>& lab) { return SeriesFields::array({lab.L, lab.a, lab.b}); }

void putText(SeriesFields& json, const char* field, const std::string& text) {
  if (!text.empty()) json[field] = text;
}
void putNumber(SeriesFields& json, const char* field, const std::optional<double>& number) {
  if (number) json[field] = *number;
}
/// A colour alone, as the lab of a group.
void putColour(SeriesFields& json, const char* field, const std::optional<Lab<D50>>& lab) {
  if (lab) json[field] = {{"lab", labFields(*lab)}};
}

SeriesFields groundFields(const NamedGround& ground) {
  SeriesFields json = SeriesFields::object();
  putText(json, "name", ground.name);
  json["lab"] = labFields(ground.lab);
  return json;
}

/// What the accepted mix and every panel have.
SeriesFields partsFields(const SeriesPanel& panel) {
  return {{"strong", panel.strong}, {"weak", panel.weak}, {"coats", panel.coats}};
}

SeriesFields panelFields(const SeriesPanel& panel) {
  SeriesFields json = partsFields(panel);
  json["lab"] = labFields(panel.lab);
  putColour(json, "ground", panel.ground);
  putNumber(json, "carrier_per_tint", panel.carrier_per_tint);
  putText(json, "stage", panel.stage);
  putColour(json, "uncleared", panel.uncleared);
  putText(json, "name", panel.name);
  putText(json, "piece", panel.piece);
  return json;
}

SeriesFields limitsFields(const MixLimits& limits) {
  constexpr MixLimits kUsual;
  SeriesFields json = SeriesFields::object();
  if (limits.max_total_parts != kUsual.max_total_parts) json["max_total_parts"] = limits.max_total_parts;
  if (limits.coats_low != kUsual.coats_low || limits.coats_high != kUsual.coats_high)
    json["coats"] = SeriesFields::array({limits.coats_low, limits.coats_high});
  if (limits.lines_only != kUsual.lines_only) json["lines_only"] = limits.lines_only;
  if (limits.even_coats != kUsual.even_coats) json["even_coats"] = limits.even_coats;
  return json;
}

}  // namespace

std::string seriesText(const Series& series) {
  SeriesFields json;
  json["format"] = 1;
  json["carrier_per_tint"] = series.carrier_per_tint;
  if (series.ground) json["ground"] = groundFields(*series.ground);
  putColour(json, "target", series.target);
  json["sigma"] = series.sigma;
  json["panels"] = SeriesFields::array();
  for (const SeriesPanel& panel : series.panels) json["panels"].push_back(panelFields(panel));
  if (SeriesFields limits = limitsFields(series.limits); !limits.empty()) json["limits"] = std::move(limits);
  for (const NamedGround& ground : series.grounds) json["grounds"].push_back(groundFields(ground));
  SeriesFields tints = SeriesFields::object();
  putText(tints, "strong", series.strong_name);
  putText(tints, "weak", series.weak_name);
  if (!tints.empty()) json["tints"] = std::move(tints);
  if (series.accepted) {
    json["accepted"] = partsFields(*series.accepted);
    putNumber(json["accepted"], "carrier_per_tint", series.accepted->carrier_per_tint);
  }
  return json.dump(2, ' ', false, SeriesFields::error_handler_t::replace) + "\n";
}

}  // namespace huewright
