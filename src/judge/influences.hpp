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
  bool grey_measured = false; ///< --grey-y was given, or the grey measured, or a chart sets the level
  std::optional<KnownGrey> grey{}; ///< as measured beside a chart, where it sets the level
  bool tint_by_chart = false;      ///< a chart in the photo sets the tint
  std::vector<double> slopes_sd{}; ///< per panel, standard deviation of its brightness against the card's, as the slopes leave it; empty: nothing to compare with
  std::vector<double> course_sd{}; ///< the same as the map of the light leaves it; zero without one
  std::vector<double> shade_sd{};  ///< per colour, relative: what a shadow on it leaves unknown of its brightness
  std::vector<double> evened{};    ///< a panel: natural log of what the slopes inside panel and card took off its brightness
  double most_uneven = 0;          ///< relative brightness between a panel and the card that was evened out
  double tone_spread = 0;          ///< relative: how far the camera's local changes of brightness go
  double veil = 0;                 ///< share of white that glossy surfaces mirror, as a black chip showed or as usual; taken off already
  double veil_sd = 0.002;          ///< its standard deviation
  Gloss card_gloss = Gloss::Unsure;
  std::optional<Vec3> rounding{};  ///< steps of a JPEG's block means: luma, Cb, Cr, codes of 8 bits
  bool subsampled = false;         ///< its colour at half the resolution
  const ColourMap* map = nullptr;  ///< of a chart's profile; then its own shifts stand for camera and rendering
  std::vector<Vec3> devices{};     ///< with a map: each colour's device values, and the gain that was applied
  Vec3 gain{1, 1, 1};
  double from_d65 = 0;             ///< raw files by their own matrix: awayFromD65 of the greys
  double colour_drift = 0;         ///< relative change of the light's colour between panel and card that the grey shows, not corrected
  double pivot_y = 0.18;      ///< luminance at which a tone curve is anchored by the grey
};

/// Every cause but the card's kind. In: panels in order, then the card when it is in the photo (`card_in_photo`); when it is not,
/// the last effect of every influence is zero. Sizes of the causes: docs/uncertainty.md names where each was found.
std::vector<Influence> influences(std::span<const Measured> colours, bool card_in_photo, const Light& light, const Circumstances& at);

}  // namespace huewright
