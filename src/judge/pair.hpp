// Two photos of one set-up, panel and card changed over in between: what the place does to them cancels.
#pragma once

#include "judge/reading.hpp"

namespace huewright {

struct Pair {
  Reading reading;      ///< of both together
  double apart = 0;     ///< ΔE00 length of the change of the difference vector from the first shot to the second
  double brightness = 0;///< natural log of the panel's brightness over the card's, first shot less second: twice what the place did
  double other = 0;     ///< the part of `apart` that brightness does not explain
  double other_sd = 0;  ///< its expected size from both shots' own noise
};

/// Averages two readings of one panel and one card: geometric means of the Bradford-sharpened channels, so that a factor on one place cancels exactly.
/// What every shot has alike (the grey's value, the camera, its rendering) stays as it is, what each shot draws anew is halved in variance.
/// In: both measured with by_slopes = false, one panel each, the card in the photo. Errors: SwappedUnusable when the two do not fit together.
/// Source: common practice of repeated measurement with the places exchanged; the angle's effect cancels to first order.
Result<Pair> averagePair(const Reading& first, const Reading& second);

}  // namespace huewright
