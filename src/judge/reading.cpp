#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "camera/evenness.hpp"
#include "judge/influences.hpp"
#include "judge/reading.hpp"

namespace huewright {
namespace {

// Where cautions begin: judgement, tried on the simulated scenes of tests/support; no source.
constexpr double kMuchClipped = 0.02;      // share of a region's pixels
constexpr double kDark = 0.004;            // luminance in the photo: below it noise and stray light rule
constexpr std::size_t kFewPixels = 400;
constexpr double kMuchMasked = 1.0 / 3.0;
constexpr double kAllMasked = 0.92;
constexpr double kGreyLow = 0.02, kGreyHigh = 0.85;  // luminance in the photo
constexpr double kGreyTexture = 0.04;      // relative
constexpr double kColouredLight = 0.30;    // log ratio between sharpened gains: beyond what an automatic white balance leaves
constexpr double kGreysApart = 0.05;       // log ratio of chromaticity between greys
constexpr double kMixed = 0.015;           // relative colour change of the light between panel and card worth a sentence
constexpr double kUneven = 0.03;           // relative brightness between panel and card worth a sentence

struct Named {
  Quad quad;
  std::string name;
};

std::vector<Named> allRegions(const Regions& r) {
  std::vector<Named> all;
  for (std::size_t i = 0; i < r.panels.size(); ++i) all.push_back({r.panels[i], panelName(i, r.panels.size())});
  if (r.card) all.push_back({*r.card, "the card"});
  for (std::size_t i = 0; i < r.greys.size(); ++i) all.push_back({r.greys[i], greyName(i, r.greys.size())});
  return all;
}

Result<std::vector<Patch>> samplePatches(Photo& photo, std::vector<Named>& regions) {
  std::vector<Rect> rects;
  for (Named& region : regions) {
    region.quad = inset(region.quad, kInset);
    Rect box = boundingBox(region.quad);
    const Size size = photo.size();
    box.x = std::clamp(box.x, 0, size.width - 1);
    box.y = std::clamp(box.y, 0, size.height - 1);
    box.width = std::clamp(box.width, 1, size.width - box.x);
    box.height = std::clamp(box.height, 1, size.height - box.y);
    rects.push_back(box);
  }
  auto rasters = photo.pixels(rects);
  if (!rasters) return std::unexpected(rasters.error());
  std::vector<Patch> patches;
  for (std::size_t i = 0; i < regions.size(); ++i) {
    patches.push_back(sample((*rasters)[i], regions[i].quad));
    (*rasters)[i] = {};  // a large region's pixels are no longer needed
  }
  return patches;
}

void cautionPatch(const Patch& patch, const std::string& name, std::vector<Caution>& out) {
  if (patch.clipped_top + patch.clipped_bottom > kMuchClipped) out.push_back({CautionCode::Clipped, name});
  if (patch.mean.Y < kDark) out.push_back({CautionCode::TooDark, name});
  if (patch.pixels < kFewPixels) out.push_back({CautionCode::TooFewPixels, name});
  if (patch.glare > kMuchMasked) out.push_back({CautionCode::Glare, name});
  if (patch.shadow > kMuchMasked) out.push_back({CautionCode::Shadow, name});
  if (patch.over_edge) out.push_back({CautionCode::RegionEdge, name});
}

void cautionGreys(std::span<const Patch> greys, const Light& light, std::vector<Caution>& out) {
  for (std::size_t i = 0; i < greys.size(); ++i) {
    const std::string name = greyName(i, greys.size());
    const Patch& g = greys[i];
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

ColourReading readingOf(const Measured& m) {
  ColourReading r;
  r.xyz = m.xyz;
  r.lab = toLab(m.xyz);
  r.pixels = m.patch.pixels;
  r.clipped = m.patch.clipped_top + m.patch.clipped_bottom;
  r.masked = m.patch.masked;
  return r;
}

void setDeviations(Reading& reading) {
  const auto of = [&](std::size_t i) {
    Vec3 variance{};
    for (const Influence& influence : reading.influences)
      for (std::size_t k = 0; k < 3; ++k) variance[k] += influence.on_lab[i][k] * influence.on_lab[i][k];
    return Vec3{std::sqrt(variance[0]), std::sqrt(variance[1]), std::sqrt(variance[2])};
  };
  for (std::size_t i = 0; i < reading.panels.size(); ++i) reading.panels[i].lab_sd = of(i);
  reading.card.lab_sd = of(reading.panels.size());
}

}  // namespace

std::string_view causeName(Cause cause) {
  constexpr std::array<std::string_view, kCauseCount> kNames{"texture", "grey", "light", "veil", "rendering", "camera", "card_kind"};
  return kNames[static_cast<std::size_t>(cause)];
}

Result<Reading> measure(Photo& photo, const Scene& scene, const CameraProfile& profile, const MeasureOptions& options) {
  if (scene.regions.panels.empty()) return fail(Code::NoPanel);
  if (!scene.regions.card && !options.card_lab) return fail(Code::NoCard);
  auto regions = allRegions(scene.regions);
  auto patches = samplePatches(photo, regions);
  if (!patches) return std::unexpected(patches.error());
  for (std::size_t i = 0; i < regions.size(); ++i) {
    if ((*patches)[i].pixels == 0) return fail(Code::RegionTooSmall, "The region of " + regions[i].name + " holds no pixel");
    if ((*patches)[i].masked > kAllMasked) return fail(Code::RegionAllMasked, regions[i].name);
  }

  const std::size_t colours = scene.regions.panels.size() + (scene.regions.card ? 1 : 0);
  const std::span<const Patch> coloured = std::span(*patches).first(colours), greys = std::span(*patches).subspan(colours);
  const double grey_y = options.grey_y.value_or(kAssumedGreyY);
  const auto light = Light::fromGreys(greys, grey_y);
  if (!light) return std::unexpected(light.error());

  Reading reading;
  reading.profile = profile.kind;
  reading.loo_de00 = profile.loo_de00;
  reading.card_in_photo = scene.regions.card.has_value();
  Circumstances at;
  at.linear = photo.facts().linear;
  at.tagged = photo.facts().tagged;
  at.grey_measured = options.grey_y.has_value();
  at.pivot_y = grey_y;
  std::vector<Measured> measured;
  double most_uneven = 0;
  for (std::size_t i = 0; i < coloured.size(); ++i) {
    Mat3 correction = light->correction(coloured[i].centre);
    if (reading.card_in_photo && i + 1 < coloured.size()) {
      const Evenness even = evennessBetween(coloured[i], coloured.back(), *light);
      correction = std::exp(-even.log_ratio) * correction;
      at.uneven_sd.push_back(even.sd);
      most_uneven = std::max(most_uneven, std::abs(even.log_ratio));
      if (greys.size() == 1)
        at.colour_drift = std::max(at.colour_drift, colourDriftOver(greys[0], coloured[i].centre, coloured.back().centre));
    }
    const Vec3 xyz = correction * toVec(coloured[i].mean);
    measured.push_back({coloured[i], {xyz[0], xyz[1], xyz[2]}, correction});
    cautionPatch(coloured[i], regions[i].name, reading.cautions);
  }
  cautionGreys(greys, *light, reading.cautions);
  if (at.colour_drift > kMixed) reading.cautions.push_back({CautionCode::LightMixed, std::to_string(std::lround(100 * at.colour_drift))});
  if (most_uneven > kUneven) reading.cautions.push_back({CautionCode::LightUneven, std::to_string(std::lround(100 * most_uneven))});
  if (light->greys() == 0) reading.cautions.push_back({CautionCode::LightNotCorrected, "No grey patch was given"});
  else if (light->greys() == 1 && reading.card_in_photo)
    reading.cautions.push_back({CautionCode::LightNotCorrected, "There is one grey patch"});
  if (light->greys() > 0 && !options.grey_y) reading.cautions.push_back({CautionCode::GreyUnmeasured, "0.18"});
  if (!photo.facts().tagged) reading.cautions.push_back({CautionCode::PhotoUntagged, {}});
  if (photo.facts().format == "JPEG" && !photo.facts().camera_data) reading.cautions.push_back({CautionCode::CameraDataMissing, {}});
  if (!profile.loo_de00) reading.cautions.push_back({CautionCode::AbsoluteNotTrusted, {}});

  reading.influences = influences(measured, reading.card_in_photo, *light, at);
  for (std::size_t i = 0; i < scene.regions.panels.size(); ++i) reading.panels.push_back(readingOf(measured[i]));
  if (reading.card_in_photo) {
    reading.card = readingOf(measured.back());
  } else {
    reading.card.lab = *options.card_lab;
    reading.card.xyz = toXyz(*options.card_lab);
  }
  setDeviations(reading);
  return reading;
}

Mat3 covarianceOfDifference(const Reading& reading, std::size_t panel, const Mat3& by_panel, const Mat3& by_card,
                            std::optional<Cause> only) {
  Mat3 sum{};
  for (const Influence& influence : reading.influences) {
    if (only && influence.cause != *only) continue;
    const Vec3 shift = by_panel * influence.on_lab[panel] + by_card * influence.on_lab[reading.panels.size()];
    sum = sum + outer(shift, shift);
  }
  return sum;
}

}  // namespace huewright
