#include "judge/photo_cautions.hpp"

#include <algorithm>
#include <cmath>

namespace huewright {
namespace {

// Where cautions begin: judgement, tried on the simulated scenes of tests/support; no source.
constexpr double kMuchClipped = 0.02;      // share of a region's pixels
constexpr double kDark = 0.004;            // luminance in the photo: below it noise and stray light rule
constexpr std::size_t kFewPixels = 400;
constexpr double kMuchMasked = 1.0 / 3.0;
constexpr double kGreyLow = 0.02, kGreyHigh = 0.85;  // luminance in the photo
constexpr double kGreyTexture = 0.04;      // relative
constexpr double kColouredLight = 0.30;    // log ratio between sharpened gains: beyond what an automatic white balance leaves
constexpr double kGreysApart = 0.05;       // log ratio of chromaticity between greys
constexpr double kMixed = 0.015;           // relative colour change of the light between panel and card worth a sentence
constexpr double kUneven = 0.03;           // relative brightness between panel and card worth a sentence
constexpr double kPaperRough = 0.03;       // relative: blank paper about its smooth surface
constexpr double kTone = 0.04;             // relative: grey dots about each other

void cautionGreys(std::span<const Named> greys, const Light& light, std::vector<Caution>& out) {
  for (const Named& grey : greys) {
    const Patch& g = grey.patch;
    const std::string& name = grey.name;
    if (grey.shade == Shading::Across) out.push_back({CautionCode::ShadowAcross, name});
    if (grey.shade == Shading::Over) out.push_back({CautionCode::ShadowOver, name});
    if (g.clipped_top > kMuchClipped || g.mean.Y > kGreyHigh || g.mean.Y < kGreyLow)
      out.push_back({CautionCode::GreyExposure, name});
    if (g.texture > kGreyTexture || g.over_edge || g.masked > kMuchMasked)
      out.push_back({CautionCode::GreyNotGrey, name});
  }
  double widest = 0, apart = 0;
  for (std::size_t i = 0; i < light.greys(); ++i) {
    const Vec3& g = light.logGain(i);
    widest = std::max({widest, std::abs(g[0] - g[1]), std::abs(g[2] - g[1])});
    for (std::size_t j = 0; j < i; ++j) {
      const Vec3 d = g - light.logGain(j);
      apart = std::max({apart, std::abs(d[0] - d[1]), std::abs(d[2] - d[1])});
    }
  }
  if (widest > kColouredLight) out.push_back({CautionCode::LightColoured, {}});
  if (apart > kGreysApart) out.push_back({CautionCode::GreysDisagree, std::to_string(std::lround(100 * apart))});
}

}  // namespace

void cautionRegion(const Named& region, std::vector<Caution>& out) {
  const Patch& patch = region.patch;
  const std::string& name = region.name;
  if (region.shade == Shading::Across) out.push_back({CautionCode::ShadowAcross, name});
  if (region.shade == Shading::Over) out.push_back({CautionCode::ShadowOver, name});
  if (patch.clipped_top + patch.clipped_bottom > kMuchClipped) out.push_back({CautionCode::Clipped, name});
  if (patch.mean.Y < kDark) out.push_back({CautionCode::TooDark, name});
  if (patch.pixels < kFewPixels) out.push_back({CautionCode::TooFewPixels, name});
  if (patch.glare > kMuchMasked) out.push_back({CautionCode::Glare, name});
  if (patch.shadow > kMuchMasked) out.push_back({CautionCode::Shadow, name});
  if (patch.over_edge) out.push_back({CautionCode::RegionEdge, name});
}

void cautionLight(const Samples& samples, const Light& light, const MeasureOptions& options, bool card_in_photo, Circumstances& at,
                  std::vector<Caution>& out) {
  cautionGreys(samples.greys, light, out);
  const auto per_cent = [](double share) { return std::to_string(std::lround(100 * share)); };
  if (at.colour_drift > kMixed) out.push_back({CautionCode::LightMixed, per_cent(at.colour_drift)});
  if (at.most_uneven > kUneven) out.push_back({CautionCode::LightUneven, per_cent(at.most_uneven)});
  if (light.map() && light.map()->residual() > kPaperRough) out.push_back({CautionCode::PaperUneven, per_cent(light.map()->residual())});
  if (const auto spread = toneSpread(samples.dots); spread && *spread > kTone) {
    at.tone_spread = *spread;
    out.push_back({CautionCode::ToneLocal, per_cent(*spread)});
  }
  if (light.paperIsGrey()) out.push_back({CautionCode::PaperAsGrey, {}});
  else if (light.greys() == 0) out.push_back({CautionCode::LightNotCorrected, "No grey patch was given"});
  else if (light.greys() == 1 && card_in_photo && !light.map()) out.push_back({CautionCode::LightNotCorrected, "There is one grey patch"});
  if (light.greys() > 0 && !at.grey_measured)
    out.push_back({CautionCode::GreyUnmeasured,
                   options.card_lab ? "The card is given as numbers, and the grey patch that must carry them into the photo was never measured: it was taken as a neutral "
                                      "of lightness 0.18, and the verdict is only as good as that"
                                    : "The lightness of the grey patch was taken as 0.18 without a measurement, so absolute colours may be off"});
}

void cautionProfile(const Samples& samples, const CameraProfile& profile, const ThroughProfile& through, std::vector<Caution>& out) {
  constexpr double kOtherLight = 0.15;  // log ratio: more than an automatic white balance strays in one light; judgement
  constexpr double kOutside = 0.5;      // ColourMap::extrapolation
  if (profile.kind == ProfileKind::File && through.colour_off > kOtherLight)
    out.push_back({CautionCode::ProfileLight, std::to_string(std::lround(100 * through.colour_off))});
  for (std::size_t i = 0; i < samples.coloured.size(); ++i)
    if (through.outside[i] > kOutside) out.push_back({CautionCode::OutsideChart, samples.coloured[i].name});
}

}  // namespace huewright
