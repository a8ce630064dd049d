// How exactly a mix can be poured, from the step of the scale or the reading of a cup's lines.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "mix/pour.hpp"

namespace huewright {

/// A ratio error above this makes a pour too small. From the issue: 1 %.
inline constexpr double kWorstRatioError = 0.01;

/// Worst cases, not standard deviations.
struct PourErrors {
  std::vector<double> amount;  ///< of each ingredient in the finished mix, relative; 0 for what is not poured
  double ratio = 0;            ///< of the ratio of any two ingredients, relative: the largest
  std::vector<double> share;   ///< of each tint's share in all tints, absolute
};

/// First-order propagation, worst case. Every amount is the difference of two readings, so that it is off by twice a reading's error; the first on a
/// scale set to zero, or in an empty cup, by once. A scale's reading is off by its step: half in what it shows, half because the wanted total is
/// rounded to what it can show. A cup's is off by what PourGauge tells. What was in the cup was itself read once: that scales all of it together.
/// Relative errors of amounts add up in their ratio; exact for two tints, an upper bound for a share among more:
/// ds_i ≤ s_i (1 − s_i) max_j (u_i + u_j).
/// In: mL of each ingredient added, and in the cup already. Errors: nothing comes back by weight when the density of something poured is missing.
std::optional<PourErrors> pourErrors(const PourRecipe& recipe, const PourGauge& gauge, std::span<const double> add_ml, std::span<const double> in_cup_ml);

/// mL of the finished mix, poured afresh, at which the ratio error is kWorstRatioError: errors fall as 1 ÷ volume. 0 for a mix of one ingredient.
std::optional<double> smallestPour(const PourRecipe& recipe, const PourGauge& gauge);

/// The coarsest step in g, of 1, 0.1, 0.01 …, at which a ratio error that is `ratio` with this step falls to kWorstRatioError. In: ratio > 0.
double scaleStepFor(double step, double ratio);

}  // namespace huewright
