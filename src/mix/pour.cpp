#include "mix/pour.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numeric>

namespace huewright {
namespace {

constexpr double kMostPourParts = 10000, kMostPourCarrier = 100, kLightestPaint = 0.5, kHeaviestPaint = 3;
constexpr std::size_t kLongestTintName = 60;

double allTintParts(const PourRecipe& recipe) {
  return std::accumulate(recipe.tints.begin(), recipe.tints.end(), 0.0, [](double sum, const PourTint& tint) { return sum + tint.parts; });
}

}  // namespace

std::optional<Problem> wrongRecipe(const PourRecipe& recipe) {
  if (recipe.tints.empty()) return Problem{Code::BadChoice, "No mix was given. Give the parts with --mix STRONG:WEAK, or each tint with --tint NAME=PARTS"};
  if (recipe.tints.size() > kMostPourTints)
    return Problem{Code::BadChoice, fmt::format("{} tints were given; a mix holds at most {}. Leave out those of which there are no parts", recipe.tints.size(), kMostPourTints)};
  for (std::size_t i = 0; i < recipe.tints.size(); ++i) {
    const PourTint& tint = recipe.tints[i];
    if (tint.name.empty() || tint.name.size() > kLongestTintName || tint.name == "carrier")
      return Problem{Code::BadChoice, "\"" + tint.name + "\" cannot be a tint's name. Give a short name, and not \"carrier\""};
    if (!std::isfinite(tint.parts) || tint.parts < 0 || tint.parts > kMostPourParts)
      return Problem{Code::BadNumber, fmt::format("The parts of {} are {:g}. Give a number from 0 to {:g}", tint.name, tint.parts, kMostPourParts)};
    for (std::size_t j = 0; j < i; ++j)
      if (recipe.tints[j].name == tint.name) return Problem{Code::BadChoice, "Two tints are called " + tint.name + ". Give each a name of its own"};
  }
  if (!(allTintParts(recipe) > 0)) return Problem{Code::BadNumber, "The parts of all tints are 0: there is nothing to pour. Give at least one tint a part above zero"};
  if (!std::isfinite(recipe.carrier) || recipe.carrier < 0 || recipe.carrier > kMostPourCarrier)
    return Problem{Code::BadNumber, fmt::format("The carrier is {:g} volumes to one of tint. Give a number from 0 (none) to {:g}", recipe.carrier, kMostPourCarrier)};
  for (std::size_t i = 0; i < recipe.ingredients(); ++i)
    if (const auto density = recipe.densityOf(i); density && !(*density >= kLightestPaint && *density <= kHeaviestPaint))
      return Problem{Code::BadNumber, fmt::format("The density of {} is {:g} g/mL. Give it from the data sheet, from {:g} to {:g} g/mL (1.0 is water)",
                                                  recipe.nameOf(i), *density, kLightestPaint, kHeaviestPaint)};
  return {};
}

std::vector<double> pourFractions(const PourRecipe& recipe) {
  std::vector<double> fractions = tintShares(recipe);
  for (double& fraction : fractions) fraction /= 1 + recipe.carrier;
  fractions.push_back(recipe.carrier / (1 + recipe.carrier));
  return fractions;
}

std::vector<double> tintShares(const PourRecipe& recipe) {
  std::vector<double> shares;
  for (const PourTint& tint : recipe.tints) shares.push_back(tint.parts / allTintParts(recipe));
  return shares;
}

std::optional<double> mixDensity(const PourRecipe& recipe) {
  const std::vector<double> fractions = pourFractions(recipe);
  double density = 0;
  for (std::size_t i = 0; i < fractions.size(); ++i) {
    if (fractions[i] == 0) continue;
    if (!recipe.densityOf(i)) return {};
    density += fractions[i] * *recipe.densityOf(i);
  }
  return density;
}

std::vector<Pouring> pourings(const PourRecipe& recipe, std::span<const double> add_ml, double in_cup_ml) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < recipe.ingredients(); ++i)
    if (add_ml[i] > 0) order.push_back(i);
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
    if (recipe.isCarrier(a) || recipe.isCarrier(b)) return !recipe.isCarrier(a);
    return add_ml[a] < add_ml[b];
  });
  std::vector<Pouring> all;
  double level = in_cup_ml;
  std::optional<double> weight = 0.0;
  for (const std::size_t i : order) {
    Pouring p{i, add_ml[i], level += add_ml[i]};
    if (const auto density = recipe.densityOf(i)) p.g = add_ml[i] * *density;
    weight = weight && p.g ? std::optional(*weight + *p.g) : std::nullopt;
    p.to_g = weight;
    all.push_back(p);
  }
  return all;
}

}  // namespace huewright
