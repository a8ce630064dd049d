// What a reading's uncertainty is made of: each part by name, with where its size comes from.
#pragma once

#include <cstddef>
#include <string_view>

namespace huewright {

/// What an uncertainty comes from, roughly.
enum class Cause { Texture, Grey, Light, Veil, Rendering, Camera, CardKind };
inline constexpr std::size_t kCauseCount = static_cast<std::size_t>(Cause::CardKind) + 1;

/// "texture", "light" …, the keys of the budget.
std::string_view causeName(Cause cause);

/// What it comes from, in full. The order is that of the table in budget.cpp.
enum class Part {
  Texture,        ///< texture of the surfaces and noise of the camera, over the region's pixels
  Scatter,        ///< what repeated photos showed beyond that
  GreyNoise,      ///< texture and noise of the grey patches
  GreyValue,      ///< the grey's own lightness
  GreyTint,       ///< the grey's own colour
  GreyKept,       ///< the grey's own colour, as it was measured beside a chart
  LightLevel,     ///< small-scale unevenness that nothing shows
  LightCourse,    ///< what the map of the light, from white paper, leaves open between two places
  LightAngle,     ///< what the slopes inside panel and card leave open: fall-off and angle of flake
  LightShade,     ///< a shadow on a region
  LightColour,    ///< drift of the light's colour from place to place
  VeilShared,     ///< mirrored surroundings, on all colours together
  VeilPlace,      ///< the same, on each colour alone
  ToneCurve,      ///< the camera's contrast and toe
  ToneColour,     ///< the camera's saturation and turns of hue
  ToneLocal,      ///< local brightening and darkening
  Rounding,       ///< rounding of a compressed file's coefficients
  Clipping,       ///< colours that are cut off
  Departure,      ///< local departures of the rendering from any smooth curve
  Matrix,         ///< the camera's colours, without a chart
  ProfileFit,     ///< a chart profile's coefficients
  ProfileMisfit,  ///< what no such profile can tell of a surface
  CardKind,       ///< other pigments on the card
};
inline constexpr std::size_t kPartCount = static_cast<std::size_t>(Part::CardKind) + 1;

/// Where the size of a part comes from.
enum class Origin {
  Photo,       ///< measured in this photo
  Photos,      ///< measured from photo to photo
  File,        ///< computed from what the file says of itself
  Chart,       ///< from the chart's own left-out patches
  Simulation,  ///< set on simulated photos whose truth is known
  Judgement,   ///< set by judgement
};

/// "measured in this photo" and the like.
std::string_view originWords(Origin origin);

Cause causeOf(Part part);
Origin originOf(Part part);

/// Stable lower-case word, such as "light_course".
std::string_view partName(Part part);

/// For people, such as "course of the light, from the white paper".
std::string_view partWords(Part part);

}  // namespace huewright
