// A mix to pour: its tints and carrier, and in which order how much of each goes into the cup.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/problem.hpp"

namespace huewright {

struct PourTint {
  std::string name;
  double parts = 0;                ///< by volume, before carrier; any scale
  std::optional<double> density{}; ///< g/mL
};

/// Its ingredients are counted: the tints in their order, then the carrier.
struct PourRecipe {
  std::vector<PourTint> tints;
  double carrier = 0;              ///< volumes of carrier to one of all tints together; 0: none
  std::optional<double> carrier_density{};

  std::size_t ingredients() const { return tints.size() + 1; }
  bool isCarrier(std::size_t ingredient) const { return ingredient == tints.size(); }
  std::string nameOf(std::size_t ingredient) const { return isCarrier(ingredient) ? "carrier" : tints[ingredient].name; }
  std::optional<double> densityOf(std::size_t ingredient) const { return isCarrier(ingredient) ? carrier_density : tints[ingredient].density; }
};

inline constexpr std::size_t kMostPourTints = 12;

/// What is wrong with a recipe: BadMix or BadNumber. Parts 0 … 10000, their sum above zero; carrier 0 … 100; densities 0.5 … 3 g/mL, which holds
/// every liquid paint; names that differ and are no longer than 60 bytes.
std::optional<Problem> wrongRecipe(const PourRecipe& recipe);

/// Share of each ingredient in the volume of the finished mix; they add up to 1. Volumes are taken to add up, as they nearly do (ideal mixing).
std::vector<double> pourFractions(const PourRecipe& recipe);

/// Share of each tint in all tints by volume, before carrier; they add up to 1.
std::vector<double> tintShares(const PourRecipe& recipe);

/// g/mL of the finished mix, by volume fractions. Nothing when a density of what is in it is missing.
std::optional<double> mixDensity(const PourRecipe& recipe);

/// What amounts are read on.
enum class PourBy { Scale, Cup };
struct PourGauge {
  PourBy by = PourBy::Cup;
  double step = 1;                 ///< g: the scale's smallest step; or mL: how far a level may be misread
};

/// One pouring of several, and where it ends.
struct Pouring {
  std::size_t ingredient = 0;
  double ml = 0, to_ml = 0;        ///< added; level in the cup afterwards, what was in it before included
  std::optional<double> g{};       ///< added; needs this ingredient's density
  std::optional<double> to_g{};    ///< running total on a scale set to zero before the first pouring; needs the densities up to here
};

/// The order of pouring: tints from the smallest amount, the carrier last. The smallest decides the ratio: poured first it has one reading's error, not
/// two, and too much of it is made good by more of the rest. In: mL to add of each ingredient, none negative, and mL in the cup already.
/// What is not added is left out.
std::vector<Pouring> pourings(const PourRecipe& recipe, std::span<const double> add_ml, double in_cup_ml = 0);

}  // namespace huewright
