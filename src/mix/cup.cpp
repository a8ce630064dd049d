#include "mix/cup.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numeric>

namespace huewright {
namespace {

constexpr double kWholePart = 1e-6;      // of a whole number
constexpr double kNoVolume = 1e-9;    // of the whole volume: rounding of the arithmetic
constexpr double kMostInCup = 1e5;    // mL

std::optional<Problem> wrongContent(const PourRecipe& wanted, const CupContent& content) {
  if (!(content.ml > 0 && content.ml <= kMostInCup))
    return Problem{Code::BadNumber, fmt::format("The cup holds {:g} mL. Give an amount above 0 and up to {:g} mL, or leave --have out", content.ml, kMostInCup)};
  if (content.parts.size() != wanted.tints.size())
    return Problem{Code::BadNumber, fmt::format("--have names parts of {} tints, and the mix has {}. Give one number for each tint, in the same order, 0 for one that is not in the cup",
                                                content.parts.size(), wanted.tints.size())};
  PourRecipe held = wanted;
  for (std::size_t i = 0; i < held.tints.size(); ++i) held.tints[i].parts = content.parts[i];
  held.carrier = content.carrier;
  if (auto problem = wrongRecipe(held)) return Problem{problem->code, "What is in the cup cannot be read: " + problem->detail};
  return {};
}

}  // namespace

std::optional<CupParts> wholeCupParts(std::span<const double> amounts, int most) {
  double least = 0;
  for (const double amount : amounts)
    if (amount > 0 && (least == 0 || amount < least)) least = amount;
  if (least == 0) return {};
  for (int k = 1; k <= most; ++k) {
    CupParts parts;
    double total = 0;
    bool whole = true;
    for (const double amount : amounts) {
      const double wanted = k * amount / least, nearest = std::round(wanted);
      whole = whole && std::abs(wanted - nearest) <= kWholePart * std::max(1.0, wanted);
      total += nearest;
      if (total > most) return {};  // a larger k only makes more
      parts.each.push_back(static_cast<int>(nearest));
    }
    parts.total = static_cast<int>(total);
    if (whole) return parts;
  }
  return {};
}

int cupFills(double ml, double capacity_ml) { return std::max(1, static_cast<int>(std::ceil(ml / capacity_ml - kNoVolume))); }

Result<CupTopUp> topUp(const PourRecipe& wanted, const CupContent& content, double wanted_ml) {
  if (const auto problem = wrongContent(wanted, content)) return std::unexpected(*problem);
  const std::vector<double> fractions = pourFractions(wanted);
  PourRecipe held = wanted;
  for (std::size_t i = 0; i < held.tints.size(); ++i) held.tints[i].parts = content.parts[i];
  held.carrier = content.carrier;

  CupTopUp top;
  top.in_cup = pourFractions(held);
  top.total_ml = wanted_ml;
  for (std::size_t i = 0; i < fractions.size(); ++i) {
    top.in_cup[i] *= content.ml;
    if (top.in_cup[i] == 0) continue;
    if (fractions[i] == 0)
      return fail(Code::CupUnusable, fmt::format("it holds {:.1f} mL of {}, of which the wanted mix has none, and nothing can be taken out again", top.in_cup[i], wanted.nameOf(i)));
    if (const double least = top.in_cup[i] / fractions[i]; least > top.total_ml * (1 + kNoVolume)) {
      top.total_ml = least;
      top.too_much = i;
    }
  }
  for (std::size_t i = 0; i < fractions.size(); ++i) {
    const double add = fractions[i] * top.total_ml - top.in_cup[i];
    top.add.push_back(add > kNoVolume * top.total_ml ? add : 0);
  }
  top.added_ml = std::accumulate(top.add.begin(), top.add.end(), 0.0);
  top.fresh_is_less = top.added_ml > wanted_ml * (1 + kNoVolume);
  return top;
}

}  // namespace huewright
