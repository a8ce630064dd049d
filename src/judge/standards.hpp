// Limits and words that are a matter of practice, not of physics; kept in calib/standards.json.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/problem.hpp"

namespace huewright {

/// What the wanted colour's card is made of, compared with the panel: other pigments look alike in one light only.
enum class CardKind { Same, Similar, Printed, Other, Unknown };
inline constexpr std::size_t kCardKindCount = static_cast<std::size_t>(CardKind::Unknown) + 1;

struct Situation {
  std::string word, meaning;
  double tolerance = 1.0;  ///< ΔE00
};

struct Visibility {
  double from = 0;     ///< ΔE00, at and above
  std::string words;   ///< "seen at a glance"
};

struct Standards {
  std::vector<Situation> situations;      ///< the first is the default
  std::vector<Visibility> visibility;     ///< ascending
  std::vector<std::pair<std::string, double>> card_kinds;  ///< word and 95th percentile of the mismatch, ΔE00, in the order of CardKind
};

/// Reads calib/standards.json. Errors: DataMissing.
Result<Standards> readStandards(const std::filesystem::path& calib);

/// The word of a card kind, "same" … "unknown".
std::string_view cardKindName(CardKind kind);

/// Standard deviation along each axis of u that a kind of card adds: its 95th percentile over 2.795, the 95th percentile of the
/// length of a standard normal 3-vector (square root of the χ² quantile 7.815 with 3 degrees of freedom).
double cardKindSd(const Standards& standards, CardKind kind);

/// "seen at a glance" and the like for a difference.
const std::string& visibilityWords(const Standards& standards, double de00);

}  // namespace huewright
