// Several photos of one set-up as one reading: what they scatter by is measured instead of modelled.
#pragma once

#include <optional>
#include <span>

#include "judge/reading.hpp"

namespace huewright {

struct Repeats {
  Reading reading;                      ///< of the photos that were used
  std::size_t used = 0;                 ///< how many
  std::optional<std::size_t> left_out{};///< index of the one photo that does not go with the others
  double left_out_by = 0;               ///< ΔE00 between its difference and the others'
  double scatter = 0;                   ///< standard deviation of one photo's difference vector along its axes, root of their mean, ΔE00; of the panel with the most
  bool disagree = false;                ///< the photos scatter far more than they should, and no single one explains it
};

/// Combines photos of the same panels and card that nothing but the camera moved between: geometric means of the Bradford-sharpened channels, influences
/// that are drawn anew in each photo divided by their number, the others kept.
///
/// The scatter of the difference vectors (deltaVector) from photo to photo, blended with the modelled one as if that had been seen in kPrior photos
/// (inverse-Wishart prior), takes the model's place: where it is larger, the excess is added as Part::Scatter; where it is smaller, the model's part
/// shrinks, to no less than a quarter of its variance. What belongs to the set-up stays in full: no number of photos of it tells of that.
///
/// With three photos or more, one that stands apart from the mean of the others by more than chance allows is named and left out.
/// In: 2 or more readings with the same number of panels, all with the card in the photo or all without. Errors: RepeatsUnusable when they do not fit
/// together. Source of the blend: Gelman and others, Bayesian Data Analysis, 3rd edition, section 3.6 (from memory).
Result<Repeats> combineRepeats(std::span<const Reading> readings);

/// The weight of the modelled scatter, in photos; judgement.
inline constexpr double kPrior = 5;

}  // namespace huewright
