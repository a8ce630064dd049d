// What to change after one panel: the strong tint's share, the coats, or neither of them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "judge/ranking.hpp"
#include "judge/verdict.hpp"

namespace huewright {

enum class Way { Increase, Decrease, Keep, Unknown };

/// "increase", "decrease", "keep", "unknown".
std::string_view wayName(Way way);

struct Step {
  std::string what;      ///< "strong_share", "coats", "ground"
  Way way = Way::Unknown;
  std::string sentence;
};

struct OnePanelAdvice {
  Way strong_share = Way::Unknown;  ///< with the coats kept
  std::vector<Step> actions;        ///< best first
  std::string sentence;             ///< the first action's, or why nothing can be said
  /// ΔE00, one standard deviation: how far two panels of the same mix and coats lie apart from the film build alone, which varies by kFilmBuild from
  /// panel to panel. The mean over a light and a dark neutral ground. Only where something is to be sprayed again.
  std::optional<double> spray_floor{};
  double depth = 0, depth_sd = 0;   ///< film depth still wanted over the film depth that is there; positive = deeper
};

/// Relative spread of the film build of one hand from panel to panel, one standard deviation; common practice, no source.
inline constexpr double kFilmBuild = 0.05;

/// Advice from one panel, without a tint model: both more strong tint and more coats carry the colour along the panel's own film
/// absorption, D = −ln(panel ÷ ground) per linear channel (Beer–Lambert). The measured difference is projected on that way; the ground
/// is not known here, so that a light and a dark neutral one must agree before a word is said, and the projection must stand
/// clear of its own spread (two standard deviations: right in 97.5 %) and be a fair part of the whole difference. Overshoot weighs
/// more than undershoot: a transparent coat can be deepened, never lightened, and steps are proposed short.
/// In: coats absent when not told; mix absent when not told.
OnePanelAdvice adviseOnePanel(const Reading& reading, std::size_t panel, const Verdict& verdict, const std::optional<Mix>& mix,
                      const std::optional<double>& coats);

}  // namespace huewright
