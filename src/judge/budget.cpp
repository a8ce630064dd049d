#include "judge/budget.hpp"

#include <array>

namespace huewright {
namespace {

struct PartRow {
  Part part;
  Cause cause;
  Origin origin;
  std::string_view name, words;
};

constexpr std::array<PartRow, kPartCount> kPartRows{{
    {Part::Texture, Cause::Texture, Origin::Photo, "texture", "texture of the surfaces, noise of the camera"},
    {Part::Scatter, Cause::Texture, Origin::Photos, "scatter", "scatter from photo to photo beyond that"},
    {Part::GreyNoise, Cause::Grey, Origin::Photo, "grey_noise", "texture and noise of the grey"},
    {Part::GreyValue, Cause::Grey, Origin::Judgement, "grey_value", "the grey's own lightness"},
    {Part::GreyTint, Cause::Grey, Origin::Judgement, "grey_tint", "the grey's own tint"},
    {Part::GreyKept, Cause::Grey, Origin::Chart, "grey_kept", "the kept grey's own colour"},
    {Part::LightLevel, Cause::Light, Origin::Simulation, "light_level", "small unevenness of the light"},
    {Part::LightCourse, Cause::Light, Origin::Photo, "light_course", "course of the light over the white paper"},
    {Part::LightAngle, Cause::Light, Origin::Photo, "light_angle", "fall-off and angle of flake, by the slopes in panel and card"},
    {Part::LightShade, Cause::Light, Origin::Photo, "light_shade", "a shadow on panel or card"},
    {Part::LightColour, Cause::Light, Origin::Simulation, "light_colour", "drift of the light's colour from place to place"},
    {Part::VeilShared, Cause::Veil, Origin::Simulation, "veil_shared", "mirrored room, on all colours together"},
    {Part::VeilPlace, Cause::Veil, Origin::Simulation, "veil_place", "mirrored room, on each colour alone"},
    {Part::ToneCurve, Cause::Rendering, Origin::Simulation, "tone_curve", "the camera's contrast"},
    {Part::ToneColour, Cause::Rendering, Origin::Simulation, "tone_colour", "the camera's saturation and turns of hue"},
    {Part::ToneLocal, Cause::Rendering, Origin::Photo, "tone_local", "local brightening by the camera, by the grey dots"},
    {Part::Rounding, Cause::Rendering, Origin::File, "rounding", "rounding in the compressed file"},
    {Part::Clipping, Cause::Rendering, Origin::Judgement, "clipping", "colours that are cut off"},
    {Part::Departure, Cause::Rendering, Origin::Simulation, "departure", "local departures of the rendering"},
    {Part::Matrix, Cause::Camera, Origin::Simulation, "matrix", "the camera's colours, without a chart"},
    {Part::ProfileFit, Cause::Camera, Origin::Chart, "profile_fit", "the profile's coefficients"},
    {Part::ProfileMisfit, Cause::Camera, Origin::Chart, "profile_misfit", "what no profile can tell of a surface"},
    {Part::CardKind, Cause::CardKind, Origin::Judgement, "card_kind", "other pigments on the card"},
}};

constexpr bool partsInOrder() {
  for (std::size_t i = 0; i < kPartRows.size(); ++i)
    if (static_cast<std::size_t>(kPartRows[i].part) != i || kPartRows[i].words.empty()) return false;
  return true;
}
static_assert(partsInOrder(), "the table must follow the order of Part");

const PartRow& partRow(Part part) { return kPartRows[static_cast<std::size_t>(part)]; }

}  // namespace

std::string_view causeName(Cause cause) {
  constexpr std::array<std::string_view, kCauseCount> kNames{"texture", "grey", "light", "veil", "rendering", "camera", "card_kind"};
  return kNames[static_cast<std::size_t>(cause)];
}

std::string_view originWords(Origin origin) {
  constexpr std::array<std::string_view, 6> kWords{"measured in this photo", "measured from photo to photo", "computed from the file", "from the chart's own patches",
                                                   "from simulated photos", "judgement"};
  return kWords[static_cast<std::size_t>(origin)];
}

Cause causeOf(Part part) { return partRow(part).cause; }
Origin originOf(Part part) { return partRow(part).origin; }
std::string_view partName(Part part) { return partRow(part).name; }
std::string_view partWords(Part part) { return partRow(part).words; }

}  // namespace huewright
