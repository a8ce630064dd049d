#include "mix/series.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

namespace huewright {
namespace {

using SeriesJson = nlohmann::json;

/// Thrown inside this file only; readSeries turns it into a Problem.
struct SeriesMistake {
  std::string sentence;
};

[[noreturn]] void mistake(std::string sentence) { throw SeriesMistake{std::move(sentence)}; }

void knownFields(const SeriesJson& json, const std::string& where, std::initializer_list<std::string_view> known) {
  if (!json.is_object()) mistake(where + " is not a group of fields in braces");
  for (const auto& [key, value] : json.items())
    if (std::ranges::find(known, key) == known.end()) mistake(fmt::format("\"{}\" is not a field of {}; check its spelling against docs/series.md", key, where));
}

double numberIn(const SeriesJson& json, const std::string& what) {
  if (json.is_string()) mistake(what + " is text in quotes, not a number; write it without them");
  if (!json.is_number()) mistake(what + " is not a number");
  const double value = json.get<double>();
  if (!std::isfinite(value)) mistake(what + " is not a finite number");
  return value;
}

double numberBetween(const SeriesJson& json, const std::string& what, double low, double high) {
  const double value = numberIn(json, what);
  if (value < low || value > high) mistake(fmt::format("{} is {:g}; it must lie between {:g} and {:g}", what, value, low, high));
  return value;
}

Lab<D50> labIn(const SeriesJson& json, const std::string& where) {
  if (!json.is_array() || json.size() != 3) mistake("the lab of " + where + " is not three numbers [L, a, b]");
  const double l = numberBetween(json[0], "L of " + where, 0, 120);
  return {l, numberBetween(json[1], "a of " + where, -200, 200), numberBetween(json[2], "b of " + where, -200, 200)};
}

std::string textIn(const SeriesJson& json, const std::string& what) {
  if (!json.is_string()) mistake(what + " is not text in quotes");
  return json.get<std::string>();
}

NamedGround groundIn(const SeriesJson& json, const std::string& where) {
  knownFields(json, where, {"lab", "name", "note"});
  if (!json.contains("lab")) mistake(where + " has no lab");
  NamedGround ground{{}, labIn(json["lab"], where)};
  if (json.contains("name")) ground.name = textIn(json["name"], "the name of " + where);
  return ground;
}

void partsIn(const SeriesJson& json, const std::string& where, SeriesPanel& panel) {
  if (!json.contains("strong") || !json.contains("weak")) mistake(where + " lacks its parts: give strong and weak, with 0 for the one that is not in it");
  panel.strong = numberIn(json["strong"], "strong of " + where);
  panel.weak = numberIn(json["weak"], "weak of " + where);
  if (panel.strong < 0 || panel.weak < 0) mistake("the parts of " + where + " are below zero; give parts of 0 or more");
  if (!(panel.strong + panel.weak > 0)) mistake(where + " has no tint in it; give at least one part, or leave it out if it is bare ground");
  if (panel.strong + panel.weak > 1e6) mistake("the parts of " + where + " are too large to be right");
  if (!json.contains("coats")) mistake(where + " lacks its coats");
  panel.coats = numberIn(json["coats"], "coats of " + where);
  if (panel.coats == 0) mistake(where + " has 0 coats: that is bare ground; give it as ground and leave the panel out");
  if (panel.coats < 0 || panel.coats > 60) mistake(fmt::format("coats of {} is {:g}; it must lie between 0 and 60", where, panel.coats));
}

SeriesPanel panelIn(const SeriesJson& json, const std::string& where) {
  knownFields(json, where, {"strong", "weak", "coats", "lab", "ground", "carrier_per_tint", "stage", "uncleared", "name", "piece", "note"});
  SeriesPanel panel;
  partsIn(json, where, panel);
  if (!json.contains("lab")) mistake(where + " has no lab");
  panel.lab = labIn(json["lab"], where);
  if (json.contains("ground")) panel.ground = groundIn(json["ground"], "the ground of " + where).lab;
  if (json.contains("carrier_per_tint")) panel.carrier_per_tint = numberBetween(json["carrier_per_tint"], "carrier_per_tint of " + where, 0, 1000);
  if (json.contains("uncleared")) panel.uncleared = groundIn(json["uncleared"], "the uncleared half of " + where).lab;
  if (json.contains("name")) panel.name = textIn(json["name"], "the name of " + where);
  if (json.contains("piece")) {
    panel.piece = textIn(json["piece"], "the piece of " + where);
    if (panel.piece.empty()) mistake("the piece of " + where + " is empty; leave the field out for a panel of its own");
  }
  if (json.contains("stage")) {
    if (!json["stage"].is_string() || std::ranges::find(kStages, json["stage"].get<std::string>()) == kStages.end())
      mistake("the stage of " + where + " is none of wet, flashed, cleared, cured");
    panel.stage = json["stage"].get<std::string>();
  }
  return panel;
}

/// Strips of one stepped panel are sprayed out of one cup.
void onePieceOneMix(const Series& series) {
  const auto carrierOf = [&](const SeriesPanel& panel) { return panel.carrier_per_tint.value_or(series.carrier_per_tint); };
  for (std::size_t i = 0; i < series.panels.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      const SeriesPanel &strip = series.panels[i], &other = series.panels[j];
      if (strip.piece.empty() || strip.piece != other.piece) continue;
      const char* differs = std::abs(strip.share() - other.share()) > 1e-9 ? "other parts" : std::abs(carrierOf(strip) - carrierOf(other)) > 1e-9 ? "another carrier" : nullptr;
      if (differs != nullptr)
        mistake(fmt::format("panels {} and {} are called strips of one piece, \"{}\", but have {}; the strips of a piece are sprayed with one mix, so correct that or give them two names", j + 1, i + 1,
                            strip.piece, differs));
    }
}

MixLimits limitsIn(const SeriesJson& json) {
  knownFields(json, "limits", {"max_total_parts", "coats", "lines_only", "even_coats", "note"});
  MixLimits limits;
  if (json.contains("max_total_parts")) {
    const double parts = numberBetween(json["max_total_parts"], "max_total_parts", 1, 24);
    if (parts != std::floor(parts)) mistake("max_total_parts is not a whole number");
    limits.max_total_parts = static_cast<int>(parts);
  }
  if (json.contains("coats")) {
    const SeriesJson& coats = json["coats"];
    if (!coats.is_array() || coats.size() != 2) mistake("coats in limits is not two numbers, the fewest and the most");
    limits.coats_low = numberBetween(coats[0], "the fewest coats", 0.5, 30);
    limits.coats_high = numberBetween(coats[1], "the most coats", 0.5, 30);
    if (std::ceil(limits.coats_low) > std::floor(limits.coats_high)) mistake("no whole number of coats lies within the limits of coats");
  }
  if (json.contains("lines_only")) {
    if (!json["lines_only"].is_boolean()) mistake("lines_only is neither true nor false");
    limits.lines_only = json["lines_only"].get<bool>();
  }
  if (json.contains("even_coats")) limits.even_coats = numberBetween(json["even_coats"], "even_coats", 0, 30);
  return limits;
}

Series seriesIn(const SeriesJson& json) {
  knownFields(json, "the series",
              {"format", "carrier_per_tint", "ground", "target", "sigma", "panels", "limits", "grounds", "accepted", "tints", "name", "note"});
  if (json.contains("format") && json["format"] != 1) mistake("its format is not 1; a newer Huewright wrote it");
  Series series;
  if (!json.contains("carrier_per_tint")) mistake("carrier_per_tint is missing: say how many volumes of carrier go to one of tint");
  series.carrier_per_tint = numberBetween(json["carrier_per_tint"], "carrier_per_tint", 0, 1000);
  if (json.contains("ground")) series.ground = groundIn(json["ground"], "the ground");
  if (json.contains("target")) series.target = groundIn(json["target"], "the target").lab;
  if (json.contains("sigma")) series.sigma = numberBetween(json["sigma"], "sigma", 0.01, 20);
  if (json.contains("limits")) series.limits = limitsIn(json["limits"]);
  if (json.contains("grounds")) {
    if (!json["grounds"].is_array() || json["grounds"].size() > kMostGrounds) mistake(fmt::format("grounds is not a list of at most {}", kMostGrounds));
    for (const SeriesJson& one : json["grounds"]) {
      const std::string where = fmt::format("ground {} of grounds", series.grounds.size() + 1);
      series.grounds.push_back(groundIn(one, where));
      if (series.grounds.back().name.empty()) mistake(where + " has no name");
    }
  }
  if (json.contains("tints")) {
    knownFields(json["tints"], "tints", {"strong", "weak", "note"});
    if (json["tints"].contains("strong")) series.strong_name = textIn(json["tints"]["strong"], "the strong tint's name");
    if (json["tints"].contains("weak")) series.weak_name = textIn(json["tints"]["weak"], "the weak tint's name");
  }
  if (json.contains("accepted")) {
    knownFields(json["accepted"], "accepted", {"strong", "weak", "coats", "carrier_per_tint", "note"});
    SeriesPanel accepted;
    partsIn(json["accepted"], "the accepted mix", accepted);
    if (json["accepted"].contains("carrier_per_tint"))
      accepted.carrier_per_tint = numberBetween(json["accepted"]["carrier_per_tint"], "carrier_per_tint of the accepted mix", 0, 1000);
    series.accepted = accepted;
  }
  if (!json.contains("panels") || !json["panels"].is_array()) mistake("panels is missing or no list; give an empty one, [], if nothing is sprayed yet");
  if (json["panels"].size() > kMostSeriesPanels) mistake(fmt::format("it holds {} panels, and at most {} are taken; leave out the oldest", json["panels"].size(), kMostSeriesPanels));
  for (const SeriesJson& one : json["panels"]) {
    const std::string where = fmt::format("panel {}", series.panels.size() + 1);
    series.panels.push_back(panelIn(one, where));
    if (!series.ground && !series.panels.back().ground)
      mistake(where + " has no ground: give the colour of the bare ground as ground, for the series or for the panel");
  }
  onePieceOneMix(series);
  return series;
}

}  // namespace

Result<Series> readSeries(std::string_view bytes) {
  try {
    return seriesIn(SeriesJson::parse(bytes));
  } catch (const SeriesMistake& m) {
    return fail(Code::SeriesUnusable, m.sentence);
  } catch (const SeriesJson::parse_error& error) {
    const auto line = 1 + std::ranges::count(bytes.substr(0, std::min(error.byte, bytes.size())), '\n');
    return fail(Code::SeriesUnusable, fmt::format("near line {} it is not JSON (numbers such as NaN are not allowed there)", line));
  } catch (const SeriesJson::exception&) {
    return fail(Code::SeriesUnusable, "it is not JSON of the form in docs/series.md");
  }
}

std::string partsWords(double strong, double weak) { return fmt::format("{:.4g}:{:.4g}", strong, weak); }

std::string coatsWords(double coats) { return fmt::format("{:.3g} {}", coats, coats == 1 ? "coat" : "coats"); }

std::string panelName(const Series& series, std::size_t index) {
  const SeriesPanel& panel = series.panels[index];
  if (!panel.name.empty()) return "panel \"" + panel.name + "\"";
  return fmt::format("panel {} ({}, {})", index + 1, partsWords(panel.strong, panel.weak), coatsWords(panel.coats));
}

std::string pieceName(const Series& series, std::size_t index) {
  const SeriesPanel& strip = series.panels[index];
  const bool stepped = std::ranges::any_of(series.panels, [&](const SeriesPanel& other) { return other.piece == strip.piece && other.coats != strip.coats; });
  return fmt::format("{} \"{}\" ({})", stepped ? "stepped panel" : "panel", strip.piece, partsWords(strip.strong, strip.weak));
}

std::vector<PanelReading> panelReadings(const Series& series) {
  std::vector<PanelReading> readings;
  for (const SeriesPanel& panel : series.panels) {
    PanelReading reading;
    reading.shares = {panel.share(), 1 - panel.share()};
    reading.tint_part = tintPart(panel.carrier_per_tint.value_or(series.carrier_per_tint));
    reading.coats = panel.coats;
    reading.ground = sharpened(panel.ground ? *panel.ground : series.ground->lab);
    reading.lab = panel.lab;
    if (!panel.piece.empty()) reading.piece = static_cast<int>(std::ranges::find(series.panels, panel.piece, &SeriesPanel::piece) - series.panels.begin());
    readings.push_back(std::move(reading));
  }
  return readings;
}

std::optional<Lab<D50>> nextGround(const Series& series) {
  if (series.ground) return series.ground->lab;
  if (!series.panels.empty()) return series.panels.back().ground;
  return {};
}

}  // namespace huewright
