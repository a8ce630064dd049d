// The mix to spray next.
#pragma once

#include <optional>
#include <vector>

#include "mix/aim.hpp"

namespace huewright {

enum class ShareWay { Increase, Decrease, Keep, Unknown };

struct NextMix {
  MixChoice choice;
  BestShare best;                      ///< at the choice's coats; its 95 % range is share ± 1.96 sd, within 0 and 1
  ShareWay direction = ShareWay::Unknown;        ///< of the strong tint's share, from the last panel; Unknown without one or when it cannot be trusted
  double trust = 0;                    ///< |best share − last panel's| in standard deviations
  std::optional<MixChoice> twin;       ///< the mix that the choice was taken before though the two cannot be told apart
  bool kept_weaker = false;            ///< of the two the weaker was taken, since the stronger has too few coats to even out
  bool shares_and_coats_trade = false; ///< mixes of other coats are as good within the uncertainty, as far as the panels tell
};

/// Where the painter stands.
struct LastPanel {
  double share = 0, coats = 0;
};

/// The grid of whole parts and whole coats, scored by Aim::at, for two tints (strong first). Of mixes whose predicted colours lie within kTwins of each other and whose scores
/// differ by less than kEqual, the one with the stronger share is taken, which hides better (common practice, no source), unless it has fewer than
/// limits.even_coats coats. The direction is spoken when trust is at least 1, and, for other coats than the
/// last panel's, when the mix's colour is known better than kGuessed: after one panel of unknown tints it was else right in 60 % on the renderer. In: at least one candidate within the limits.
NextMix nextMix(const Aim& aim, const MixLimits& limits, const std::optional<LastPanel>& last);

/// ΔE00 that neither a photo nor an eye tells apart on two panels, and the difference of scores that then counts as none. Choices, not measured.
inline constexpr double kTwins = 0.5, kEqual = 0.1;

/// ΔE00, one standard deviation of what the tints would do; from there on a mix is a guess, and learning comes first. A choice.
inline constexpr double kGuessed = 1.5;

/// Whole coats within the limits.
std::vector<double> coatsWithin(const MixLimits& limits);

}  // namespace huewright
