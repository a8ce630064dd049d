#include "mix/pour_error.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace huewright {

std::optional<PourErrors> pourErrors(const PourRecipe& recipe, const PourGauge& gauge, std::span<const double> add_ml, std::span<const double> in_cup_ml) {
  const std::size_t count = recipe.ingredients();
  const double held = std::accumulate(in_cup_ml.begin(), in_cup_ml.end(), 0.0);
  std::vector<double> whole(count), off(count);  // mL; off: from pouring alone
  for (std::size_t i = 0; i < count; ++i) whole[i] = add_ml[i] + in_cup_ml[i];
  bool exact_start = gauge.by == PourBy::Scale || held == 0;
  for (const Pouring& p : pourings(recipe, add_ml)) {
    double reading = gauge.step;
    if (gauge.by == PourBy::Scale) {
      const auto density = recipe.densityOf(p.ingredient);
      if (!density) return {};
      reading /= *density;
    }
    off[p.ingredient] = exact_start ? reading : 2 * reading;
    exact_start = false;
  }
  double held_off = 0;  // relative
  if (held > 0) {
    double weight = held;
    if (gauge.by == PourBy::Scale) {
      weight = 0;
      for (std::size_t i = 0; i < count; ++i) {
        if (in_cup_ml[i] > 0 && !recipe.densityOf(i)) return {};
        weight += in_cup_ml[i] * recipe.densityOf(i).value_or(0);
      }
    }
    held_off = gauge.step / weight;
  }

  PourErrors errors;
  errors.amount.resize(count);
  errors.share.resize(recipe.tints.size());
  const auto heldPart = [&](std::size_t i) { return in_cup_ml[i] / whole[i]; };
  for (std::size_t i = 0; i < count; ++i)
    if (whole[i] > 0) errors.amount[i] = off[i] / whole[i] + heldPart(i) * held_off;
  const std::vector<double> shares = tintShares(recipe);
  for (std::size_t i = 0; i < count; ++i)
    for (std::size_t j = 0; j < count; ++j) {
      if (i == j || whole[i] == 0 || whole[j] == 0) continue;
      const double ratio = off[i] / whole[i] + off[j] / whole[j] + std::abs(heldPart(i) - heldPart(j)) * held_off;
      errors.ratio = std::max(errors.ratio, ratio);
      if (!recipe.isCarrier(i) && !recipe.isCarrier(j)) errors.share[i] = std::max(errors.share[i], shares[i] * (1 - shares[i]) * ratio);
    }
  return errors;
}

std::optional<double> smallestPour(const PourRecipe& recipe, const PourGauge& gauge) {
  const std::vector<double> one_ml = pourFractions(recipe), nothing(one_ml.size());
  const auto errors = pourErrors(recipe, gauge, one_ml, nothing);
  if (!errors) return {};
  return errors->ratio / kWorstRatioError;
}

double scaleStepFor(double step, double ratio) {
  constexpr double kSlack = 1e-9;  // of a power of ten that is met exactly
  return std::pow(10, std::min(0.0, std::floor(std::log10(step * kWorstRatioError / ratio) + kSlack)));
}

}  // namespace huewright
