// Panels of a series that do not go together.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/caution.hpp"
#include "mix/series.hpp"

namespace huewright {

/// A series whose panels can be fitted together, and what was done to it.
struct CheckedSeries {
  Series series;
  std::vector<std::size_t> from;     ///< of each panel kept: its place in the series as read
  std::vector<Caution> cautions;
};

/// Copies of a panel (same mix, coats, ground and reading to the last digit) count once, and it is said: a second reading of a panel never gives exactly the same numbers.
CheckedSeries withoutCopies(const Series& series);

/// A panel that does not go with the others, or all the strips of a stepped one.
struct OddPanel {
  std::vector<std::size_t> panels;   ///< in the series given, rising: one, or the strips of a piece
  double surprise = 0;               ///< squared distance of its reading from what the others predict, in standard deviations; three degrees of freedom; the strangest strip's
  std::string fits_as;               ///< "3:1", "4 coats", "strips of 2, 3 and 4 coats": the likely label, or empty
};

/// What the check finds: at most one odd panel, or a contradiction that cannot be laid at one panel's door.
struct Contradiction {
  std::optional<OddPanel> odd;
  std::vector<std::size_t> between;  ///< without an odd one: the two that miss the most
};

/// Each panel against a fit of all the others. The one without which the rest fit best is odd when its surprise is over kOdd, at least four others are left
/// and these agree. A strip is held against what its piece's other strips tell of its film. Each stepped panel is left out as a whole as well, since its strips carry one label and
/// agree among themselves; it is the odd one where that makes the rest fit better by more than its strips would one by one.
/// Of more than kAllLookedAt panels only as many as that are left out in turn: those that miss the most in a fit of all, films included.
/// In: one prior a tint. Errors: those of fitTints.
Result<std::optional<Contradiction>> findContradiction(const Series& series, std::span<const TintPrior> priors, const FitSettings& settings);

inline constexpr std::size_t kAllLookedAt = 12;

/// Chi-square with three degrees of freedom passes 21.1 once in ten thousand times (from memory); a longer tail is allowed for, since the model itself is only nearly right.
inline constexpr double kOdd = 30;

}  // namespace huewright
