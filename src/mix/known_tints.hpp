// Tints that are known from earlier work, kept in a file.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "mix/fit.hpp"

namespace huewright {

/// A fitted tint: its mean in (ln k, β) and its covariance, as the series told them.
struct KnownTint {
  std::string name;
  TintPrior fitted;
};

/// How the errors of tints that one series told go together: one may be overrated where the other is underrated.
struct TintsTogether {
  std::vector<std::string> names;    ///< two or more of the file's tints, each in one such group at most
  std::vector<double> covariance;    ///< of (ln k, β) of the first, then of the next …: 6 a tint, row by row, positive definite; its blocks along the diagonal are the tints' own
};

struct TintFile {
  std::vector<KnownTint> tints;
  std::vector<TintsTogether> together;  ///< empty in files that do not say
  double film_sd = kFilmSd;          ///< of the painter whose panels these are
  double film_weight = 10;           ///< worth so many pieces
  std::optional<Lab<D50>> ground;    ///< that the panels lay on; over another one the tints are known less well
};

/// Reads a tint file (docs/advise.md). Errors: TintFileUnusable with one plain sentence.
Result<TintFile> readTintFile(std::string_view bytes);

/// The file's text: JSON, two-space indented, with a final newline; readTintFile gives the same back to 9 digits.
std::string tintFileJson(const TintFile& file);

/// The tints of a fit under these names, how they go together, and the painter's film spread. In: as many names as tints; the ground that most of the panels lay on, if there is one.
TintFile tintFileOf(const TintFit& fit, const std::vector<std::string>& names, const std::optional<Lab<D50>>& ground);

/// What a kept tint is worth in another series: its covariance, and on top of it kSeenAgain in ln k and in β for another camera, another light and what the model cannot say of
/// a mix. Strange: 0 over the ground that the tint was learned on, 1 over quite another (strangeGround); then kOtherGround is added to all of ln k alike.
TintPrior priorOf(const KnownTint& tint, double strange);

/// The same for several tints of a file at once, by their places in it: the covariance of all their unknowns, row by row. Along the diagonal stands what priorOf gives; between two tints what the
/// file says of them together, and the strange ground, which deepens or lightens all tints alike.
std::vector<double> jointPrior(const TintFile& file, std::span<const std::size_t> tints, double strange);

/// How strange a ground is to a tint file: strangeBetween of the two grounds; 0 when the file names none.
double strangeGround(const TintFile& file, const Lab<D50>& ground);

/// Standard deviation; tuned on the renderer with a camera whose channels are off by 2 % and mixed by 1 %: 0.03 puts the second panel under 1 ΔE00 in 90 %, 0.06 in 83 %,
/// 0 in 73 % with intervals that cover two thirds.
inline constexpr double kSeenAgain = 0.03;

}  // namespace huewright
