// Which of several panels is nearest to the card, and how sure that is.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "judge/verdict.hpp"

namespace huewright {

/// Parts of strong and weak tint by volume, before carrier.
struct Mix {
  double strong = 0, weak = 0;
  /// strong ÷ (strong + weak), 0..1.
  double share() const { return strong / (strong + weak); }
};

struct Rank {
  std::size_t panel = 0;      ///< index in the reading
  bool surely_nearer = false; ///< than the next in the list: at 97.5 % one-sided
};

struct Ranking {
  std::vector<Rank> order;  ///< nearest first
  std::string sentence;
};

/// What sentences need, and who does not take part.
struct RankWords {
  std::vector<std::string> names{};        ///< "B", "3 coats"; empty: letters in the reading's order
  std::vector<std::size_t> left_out{};     ///< panels that are no candidates, such as bare ground
  bool by_coats = false;                   ///< strips of one stepped panel: they differ in coats, not in their mix
};

/// Orders panels by their distance and says which neighbours can be told apart. The comparison is paired: what moves both panels,
/// or the card, alike cancels. In: verdicts in the reading's order; mixes may be empty, else one per panel.
///
/// With w = (u_A, u_B) and its joint covariance Σ, q = |u_A|² − |u_B|² has the mean wᵀGw + tr(GΣ) and the variance
/// 4 wᵀGΣGw + 2 tr((GΣ)²), G = diag(I, −I). Source: Searle and Gruber, Linear Models, 2nd edition, section 2.5 (normal quadratic forms).
Ranking rank(const Reading& reading, std::span<const Verdict> verdicts, std::span<const Mix> mixes, const RankWords& words = {});

}  // namespace huewright
