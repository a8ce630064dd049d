// The causes that could have moved a reading, each as a one-standard-deviation shift of every colour.
#pragma once

#include <span>
#include <vector>

#include "camera/light.hpp"
#include "judge/reading.hpp"

namespace huewright {

/// One colour of the reading as the causes see it.
struct Measured {
  Patch patch;
  Xyz<D50> xyz;          ///< corrected
  Mat3 correction{};     ///< that was applied to patch.mean
};

/// What is known of the photo and its greys.
struct Circumstances {
  bool linear = false;        ///< stored codes are proportional to light: no tone curve of the camera's taste
  bool tagged = true;
  bool grey_measured = false; ///< --grey-y was given
  std::vector<double> uneven_sd{}; ///< per panel, standard deviation of its brightness against the card's; empty: nothing to compare with
  double colour_drift = 0;         ///< relative change of the light's colour between panel and card that the grey shows, not corrected
  double pivot_y = 0.18;      ///< luminance at which a tone curve is anchored by the grey
};

/// Every cause but the card's kind. In: panels in order, then the card when it is in the photo (`card_in_photo`); when it is not,
/// the last effect of every influence is zero. Sizes of the causes: docs/uncertainty.md names where each was found.
std::vector<Influence> influences(std::span<const Measured> colours, bool card_in_photo, const Light& light, const Circumstances& at);

}  // namespace huewright
