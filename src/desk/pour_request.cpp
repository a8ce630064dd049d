#include "desk/pour_request.hpp"

#include <fmt/format.h>

namespace huewright::desk {
namespace {

std::string optionalText(const std::optional<double>& value) { return value ? fmt::format("{},", *value) : "-,"; }

}  // namespace

bool poursAccepted(const SittingState& state) { return state.plan.series && state.plan.series->accepted.has_value(); }

std::optional<PourRequest> pourRequestOf(const PourViewState& cup, const SittingState& state) {
  if (!state.plan.series) return {};
  const Series& series = *state.plan.series;
  PourRequest request;
  double strong = 0, weak = 0;
  request.recipe.carrier = series.carrier_per_tint;
  if (series.accepted) {
    strong = series.accepted->strong;
    weak = series.accepted->weak;
    request.need.coats = series.accepted->coats;
    request.recipe.carrier = series.accepted->carrier_per_tint.value_or(series.carrier_per_tint);
  } else if (state.series.advice && state.series.advice->advice.next) {
    const MixChoice& choice = state.series.advice->advice.next->choice;
    if (choice.parts.size() != 2) return {};
    strong = choice.parts[0];
    weak = choice.parts[1];
    request.need.coats = choice.coats;
  } else {
    return {};
  }
  request.recipe.tints = {{series.strong_name.empty() ? "strong tint" : series.strong_name, strong, cup.strong_density}, {series.weak_name.empty() ? "weak tint" : series.weak_name, weak, cup.weak_density}};
  request.recipe.carrier_density = cup.carrier_density;
  request.need.areas = {{{}, cup.area_m2}};
  request.need.tool = cup.airbrush ? PourTool::Airbrush : PourTool::Gun;
  request.need.loss = cup.loss;
  request.need.film_um = cup.film_um;
  request.need.rest_ml = cup.rest_ml;
  request.cup_ml = cup.cup_ml;
  if (cup.scale_g && mixDensity(request.recipe)) request.gauge = PourGauge{PourBy::Scale, *cup.scale_g};
  request.title = cup.title;
  return request;
}

std::string pourTrace(const PourRequest& request) {
  std::string out;
  for (const PourTint& tint : request.recipe.tints) out += fmt::format("{}={},", tint.name, tint.parts) + optionalText(tint.density);
  out += fmt::format("{},", request.recipe.carrier) + optionalText(request.recipe.carrier_density);
  for (const PourArea& area : request.need.areas) out += fmt::format("{}={},", area.name, area.m2);
  out += request.need.tool == PourTool::Gun ? "gun," : "airbrush,";
  for (const auto& value : {request.need.coats, request.need.film_um, request.need.coverage, request.need.loss, request.need.rest_ml, request.volume_ml, request.cup_ml}) out += optionalText(value);
  if (request.gauge) out += fmt::format("{} {}", request.gauge->by == PourBy::Scale ? "scale" : "cup", request.gauge->step);
  return out;
}

}  // namespace huewright::desk
