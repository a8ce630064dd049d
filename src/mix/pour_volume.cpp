#include "mix/pour_volume.hpp"

#include <array>
#include <cmath>
#include <fmt/format.h>

namespace huewright {
namespace {

constexpr double kUmPerSquareMetreAndLitre = 1000;  // a litre on a square metre stands 1000 µm high

// Common practice, no source: wet film, loss with its range, what is left.
constexpr std::array kToolFacts{PourToolFacts{25, 0.5, 0.35, 0.65, 15}, PourToolFacts{12, 0.35, 0.2, 0.5, 2}};

struct NumberRange {
  double from, to;
  bool above;  // `from` itself is too small
};

std::optional<Problem> outsideRange(const std::optional<double>& value, const NumberRange& range, std::string_view what, std::string_view unit) {
  if (!value || (*value <= range.to && (range.above ? *value > range.from : *value >= range.from))) return {};
  return Problem{Code::BadNumber, fmt::format("{} {:g}{}. Give a number {} {:g} {} {:g}", what, *value, unit, range.above ? "above" : "from", range.from,
                                              range.above ? "and up to" : "to", range.to)};
}

std::optional<Problem> wrongNeed(const PourNeed& need) {
  if (need.areas.empty()) return Problem{Code::BadChoice, "No area was given. Say how large the part is in square metres, such as --area frame=0.35, or give the amount with --volume"};
  if (need.areas.size() > kMostPourAreas)
    return Problem{Code::BadChoice, fmt::format("{} areas were given; at most {} are told apart. Add small ones up", need.areas.size(), kMostPourAreas)};
  for (const PourArea& area : need.areas)
    if (auto problem = outsideRange(area.m2, {0, 1000, true}, area.name.empty() ? "The area is" : "The area of " + area.name + " is", " m²")) return problem;
  if (!need.coats) return Problem{Code::BadChoice, "No coats were given. Say how many with --coats N"};
  if (need.film_um && need.coverage) return Problem{Code::BadChoice, "Both --film and --coverage were given. Keep one of the two"};
  const std::array problems{outsideRange(need.coats, {0, 50, true}, "The coats are", ""), outsideRange(need.film_um, {1, 1000, false}, "The film of one coat is", " µm"),
                            outsideRange(need.coverage, {1, 1000, false}, "The coverage is", " m² a litre"), outsideRange(need.loss, {0, 0.95, false}, "The loss is", " of what is sprayed"),
                            outsideRange(need.rest_ml, {0, 1000, false}, "What stays in the tool is", " mL")};
  for (const auto& problem : problems)
    if (problem) return problem;
  return {};
}

}  // namespace

const PourToolFacts& pourToolFacts(PourTool tool) { return kToolFacts[tool == PourTool::Gun ? 0 : 1]; }

Result<PourNeeded> volumeNeeded(const PourNeed& need) {
  if (const auto problem = wrongNeed(need)) return std::unexpected(*problem);
  const PourToolFacts& usual = pourToolFacts(need.tool);
  PourNeeded needed;
  for (const PourArea& area : need.areas) needed.m2 += area.m2;
  needed.film_um = need.coverage ? kUmPerSquareMetreAndLitre / *need.coverage : need.film_um.value_or(usual.film_um);
  needed.loss = need.loss.value_or(usual.loss);
  needed.rest_ml = need.rest_ml.value_or(usual.rest_ml);
  needed.on_part_ml = needed.m2 * *need.coats * needed.film_um;
  const auto withLoss = [&](double loss) { return needed.on_part_ml / (1 - loss) + needed.rest_ml; };
  needed.ml = withLoss(needed.loss);
  needed.least_ml = need.loss ? needed.ml : withLoss(usual.least_loss);
  needed.most_ml = need.loss ? needed.ml : withLoss(usual.most_loss);
  for (const PourArea& area : need.areas) needed.each_ml.push_back(needed.ml * area.m2 / needed.m2);
  return needed;
}

}  // namespace huewright
