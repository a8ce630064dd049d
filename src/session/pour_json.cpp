#include "session/pour_json.hpp"

#include <cmath>
#include <nlohmann/json.hpp>
#include <numeric>

namespace huewright {
namespace {

using PourJson = nlohmann::ordered_json;

PourJson figure(std::optional<double> value) { return value && std::isfinite(*value) ? PourJson(std::round(*value * 1e4) / 1e4 + 0.0) : PourJson(nullptr); }

PourJson mixJson(const PourRequest& request, const PourReport& report) {
  const std::vector<double> shares = tintShares(request.recipe);
  PourJson tints = PourJson::array();
  for (std::size_t i = 0; i < shares.size(); ++i) {
    const PourTint& tint = request.recipe.tints[i];
    tints.push_back({{"name", tint.name}, {"parts", figure(tint.parts)}, {"density", figure(tint.density)}, {"share", figure(shares[i])},
                     {"share_low", figure(std::max(0.0, shares[i] - report.errors.share[i]))}, {"share_high", figure(std::min(1.0, shares[i] + report.errors.share[i]))}});
  }
  return {{"tints", tints}, {"carrier_per_tint", figure(request.recipe.carrier)}, {"carrier_density", figure(request.recipe.carrier_density)}};
}

PourJson needJson(const PourRequest& request, const PourReport& report) {
  if (!report.needed) return nullptr;
  const PourNeeded& need = *report.needed;
  PourJson areas = PourJson::array();
  for (std::size_t i = 0; i < need.each_ml.size(); ++i)
    areas.push_back({{"name", request.need.areas[i].name.empty() ? PourJson(nullptr) : PourJson(request.need.areas[i].name)}, {"m2", figure(request.need.areas[i].m2)}, {"ml", figure(need.each_ml[i])}});
  return {{"areas", areas}, {"m2", figure(need.m2)}, {"coats", figure(request.need.coats)}, {"tool", request.need.tool == PourTool::Gun ? "gun" : "airbrush"}, {"film_um", figure(need.film_um)},
          {"loss", figure(need.loss)}, {"rest_ml", figure(need.rest_ml)}, {"on_part_ml", figure(need.on_part_ml)}, {"ml", figure(need.ml)}, {"low_ml", figure(need.least_ml)}, {"high_ml", figure(need.most_ml)}};
}

PourJson haveJson(const PourRequest& request, const PourReport& report) {
  if (!report.top_up) return nullptr;
  const CupTopUp& top = *report.top_up;
  return {{"ml", figure(std::accumulate(top.in_cup.begin(), top.in_cup.end(), 0.0))}, {"added_ml", figure(top.added_ml)}, {"fresh_ml", figure(report.wanted_ml)}, {"fresh_is_less", top.fresh_is_less},
          {"too_much", top.too_much ? PourJson(request.recipe.nameOf(*top.too_much)) : PourJson(nullptr)}};
}

}  // namespace

std::string toJson(const PourRequest& request, const PourReport& report) {
  PourJson json;
  json["format"] = 1;
  json["mix"] = mixJson(request, report);
  json["need"] = needJson(request, report);
  json["have"] = haveJson(request, report);
  json["wanted_ml"] = figure(report.wanted_ml);
  json["total_ml"] = figure(report.total_ml);
  json["total_g"] = figure(report.total_g);
  json["fills"] = report.fills;
  const bool by_weight = report.gauge.by == PourBy::Scale;
  json["gauge"] = {{"by", by_weight ? "scale" : "cup"}, {"step", figure(report.gauge.step)}, {"unit", by_weight ? "g" : "ml"}};
  PourJson pour = PourJson::array();
  int line = 0;
  for (std::size_t i = 0; i < report.order.size(); ++i) {
    const Pouring& p = report.order[i];
    if (report.lines) line += report.lines->each[i];
    pour.push_back({{"name", request.recipe.nameOf(p.ingredient)}, {"ml", figure(p.ml)}, {"to_ml", figure(p.to_ml)}, {"g", figure(p.g)}, {"to_g", figure(p.to_g)},
                    {"to_line", report.lines ? PourJson(line) : PourJson(nullptr)}, {"error", figure(report.errors.amount[p.ingredient])}});
  }
  json["pour"] = pour;
  json["ratio_error"] = figure(report.errors.ratio);
  json["smallest_ml"] = figure(report.smallest_ml);
  json["strainer_um"] = kStrainerUm;
  json["sentences"] = report.sentences;
  PourJson cautions = PourJson::array();
  for (const Caution& c : report.cautions) cautions.push_back({{"code", cautionName(c.code)}, {"sentence", sentence(c)}});
  json["cautions"] = cautions;
  return json.dump(2, ' ', false, PourJson::error_handler_t::replace) + "\n";
}

}  // namespace huewright
