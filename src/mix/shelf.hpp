// Mixes of two or three tints off a shelf.
#pragma once

#include <vector>

#include "mix/aim.hpp"
#include "mix/known_tints.hpp"

namespace huewright {

struct ShelfMix {
  std::vector<std::size_t> tints;      ///< places on the shelf, one to three
  MixChoice choice;                    ///< its parts are in the order of tints
};

/// What a shelf is searched for.
struct ShelfWish {
  Lab<D50> target, ground;
  double carrier_per_tint = 0;
  MixLimits limits;
  std::size_t most_tints = 3;          ///< 1 to 3
  std::size_t keep = 5;
};

/// The mixes of whole parts that are expected to come nearest, best first, one of each choice of tints. Ranked by predicted distance and kSimpler for each tint beyond the first, so that a tint must
/// bring something. What the shelf's file says of tints together, and how strange the ground is to it, counts in their uncertainty. The film's spread is kFilmSd. In: one to kMostOnShelf tints. Errors: TintFileUnusable when there are none or too many.
Result<std::vector<ShelfMix>> fromShelf(const TintFile& shelf, const ShelfWish& wish);

inline constexpr std::size_t kMostOnShelf = 40;

/// ΔE00 that one tint less is worth. A choice: what an eye does not see side by side.
inline constexpr double kSimpler = 0.2;

}  // namespace huewright
