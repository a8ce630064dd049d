// A mixing cup with a scale of parts, and what to add to a cup that holds something already.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "mix/pour.hpp"

namespace huewright {

inline constexpr int kMostCupParts = 120;  ///< more lines than these cannot be told apart on a cup; judgement, no source

/// Whole-number parts of each amount, as small as they can be, and their sum.
struct CupParts {
  std::vector<int> each;
  int total = 0;
};

/// The smallest whole numbers in the ratio of these amounts (none negative, one above zero), each within 1e-6 of it. Nothing when they would add up
/// to more than `most`.
std::optional<CupParts> wholeCupParts(std::span<const double> amounts, int most = kMostCupParts);

/// In how many equal fills a cup takes that much. In: mL, capacity > 0.
int cupFills(double ml, double capacity_ml);

/// What a cup holds: a mix of the same tints.
struct CupContent {
  double ml = 0;
  std::vector<double> parts;       ///< of each tint, in the recipe's order
  double carrier = 0;              ///< volumes to one of all tints together
};

/// What to add, never to remove.
struct CupTopUp {
  std::vector<double> in_cup, add;  ///< mL of each ingredient; add is never negative
  double total_ml = 0, added_ml = 0;
  /// The cup holds more of this ingredient than the wanted volume has, so that the mix grows beyond it.
  std::optional<std::size_t> too_much{};
  /// As much as is wanted, poured into an empty cup, takes less new paint than what must be added.
  bool fresh_is_less = false;
};

/// The smallest volume, of at least `wanted_ml`, that becomes the wanted mix by adding alone: max(wanted, max_i held_i ÷ fraction_i).
/// Errors: BadMix, BadNumber for a content that is none; CupUnusable when the cup holds something of which the wanted mix has nothing.
Result<CupTopUp> topUp(const PourRecipe& wanted, const CupContent& content, double wanted_ml);

}  // namespace huewright
