// Other mixes than the next, and what each trades.
#pragma once

#include <string>
#include <vector>

#include "mix/next_mix.hpp"

namespace huewright {

enum class AlternativeKind { SameCoats, SameParts, Stronger, CupLine };

struct Alternative {
  AlternativeKind kind{};
  MixChoice choice;
  std::string trade;               ///< one sentence
};

/// At most three, each the best of its kind by Aim's score and none of them the next mix or another alternative: with its coats but other parts; with its parts but other coats;
/// a stronger share in fewer coats; n:1 or 1:n, as cup lines show. Only such as lie within kWorthTrying of the next mix.
std::vector<Alternative> alternatives(const Aim& aim, const MixLimits& limits, const NextMix& next);

/// ΔE00 by which an alternative may lie further off and still be worth naming. A choice.
inline constexpr double kWorthTrying = 2.5;

/// "same-coats", "same-parts", "stronger", "cup-line".
std::string_view alternativeName(AlternativeKind kind);

}  // namespace huewright
