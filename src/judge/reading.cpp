#include "judge/reading.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <string>

#include "camera/light_colour.hpp"
#include "camera/veil.hpp"
#include "judge/correct.hpp"
#include "judge/photo_cautions.hpp"
#include "judge/through_profile.hpp"
#include "photo/device.hpp"

namespace huewright {
namespace {

constexpr double kVeilSaid = 0.005;  // share of white: worth a sentence; judgement

ColourReading readingOf(const Measured& m) {
  ColourReading r;
  r.xyz = m.xyz;
  r.lab = toLab(m.xyz);
  r.pixels = m.patch.pixels;
  r.clipped = m.patch.clipped_top + m.patch.clipped_bottom;
  r.masked = m.patch.masked;
  r.grain = m.patch.grain;
  return r;
}

}  // namespace

std::string_view lightFromName(LightFrom from) {
  constexpr std::array<std::string_view, 4> kNames{"nothing", "greys", "paper", "sheet"};
  return kNames[static_cast<std::size_t>(from)];
}

Xyz<D50> greyColour(const MeasureOptions& options) {
  if (options.grey && !options.grey_y) return toXyz(options.grey->lab);
  const Vec3 neutral = options.grey_y.value_or(kAssumedGreyY) * kWhite<D50>;
  return {neutral[0], neutral[1], neutral[2]};
}

Result<Reading> measure(Photo& photo, const Scene& scene, const CameraProfile& profile, const MeasureOptions& options) {
  if (scene.regions.panels.empty()) return fail(Code::NoPanel);
  if (!scene.regions.card && !options.card_lab) return fail(Code::NoCard);
  auto samples = samplePhoto(photo, scene);
  if (!samples) return std::unexpected(samples.error());
  ThroughProfile through;
  if (profile.map)
    through = carryThrough(*profile.map, profile.kind == ProfileKind::Chart, photo.facts(), greyColour(options), *samples);
  auto light = lightOf(*samples, options);
  if (!light) return std::unexpected(light.error());
  const bool chart = profile.kind == ProfileKind::Chart;
  const bool kept = options.grey && !options.grey_y && light->greys() > 0;
  const bool level_by_greys = options.grey_y || (kept && luminanceSd(*options.grey) < kChartLevel * luminanceOf(*options.grey));
  if (chart) light->keepLevel(level_by_greys);
  if (chart && options.course) light->follow(*options.course, level_by_greys);

  Reading reading;
  reading.profile = profile.kind;
  reading.loo_de00 = profile.loo_de00;
  reading.card_in_photo = scene.regions.card.has_value();
  reading.cautions = scene.cautions;
  if (!scene.paper.empty() && !light->map())
    reading.cautions.push_back({CautionCode::PaperUnusable, 2 * samples->paper.size() < scene.paper.size() ? "it is burnt out" : "too much of it lies in shadow"});
  Circumstances at;
  at.linear = photo.facts().linear;
  at.rounding = photo.facts().rounding;
  at.subsampled = photo.facts().chroma_subsampled;
  at.grey_measured = options.grey_y || kept || chart;
  if (kept && (!chart || level_by_greys)) at.grey = options.grey;
  at.tint_by_chart = chart;
  at.pivot_y = greyColour(options).Y;
  at.card_gloss = options.card_gloss;
  if (profile.map) {
    at.map = &*profile.map;
    at.devices = through.devices;
    at.gain = through.gain;
    cautionProfile(*samples, profile, through, reading.cautions);
  }

  if (photo.facts().native && !profile.map && !samples->greys.empty()) {
    const Mat3 to_device = inverse(deviceToXyz(photo.facts()));
    for (const Named& grey : samples->greys)
      at.from_d65 += awayFromD65(*photo.facts().native, to_device * toVec(grey.patch.mean)) / static_cast<double>(samples->greys.size());
  }

  Veil veil = usualVeil(light->correction(samples->coloured.front().patch.centre));
  at.veil = veil.share;
  at.veil_sd = veil.sd;
  if (samples->black) {
    const auto found = veilOf(samples->black->patch, light->correction(samples->black->patch.centre));
    if (!found && !scene.found_by_itself) return std::unexpected(found.error());
    if (found) {
      veil = *found;
      at.veil = veil.share;
      at.veil_sd = veil.sd;
      reading.veil = veil.share;
    } else {
      reading.cautions.push_back({CautionCode::BlackNotBlack, "What lies in the mat's black window cannot be used: " + found.error().detail});
    }
    if (found && veil.share > kVeilSaid) reading.cautions.push_back({CautionCode::VeilTakenOff, fmt::format("{:.1f}", 100 * veil.share)});
  }
  const std::vector<Measured> measured = measureColours(*samples, *light, veil, options, reading.card_in_photo, at);
  for (const Named& region : samples->coloured) cautionRegion(region, reading.cautions);
  cautionLight(*samples, *light, options, reading.card_in_photo, at, reading.cautions);
  if (photo.facts().balance_doubtful) reading.cautions.push_back({CautionCode::BalanceDoubtful, {}});
  if (!profile.loo_de00) reading.cautions.push_back({CautionCode::AbsoluteNotTrusted, {}});

  for (const Named& grey : samples->greys) reading.grey_grain = std::max(reading.grey_grain, grey.patch.grain);
  reading.light_from = options.sheet ? LightFrom::Sheet : light->map() ? LightFrom::Paper : light->greys() > 0 ? LightFrom::Greys : LightFrom::Nothing;
  if (light->greys() > 0)
    reading.grey.from = chart && !level_by_greys ? GreyFrom::Chart : options.grey_y ? GreyFrom::Told : kept ? GreyFrom::Kept : GreyFrom::Assumed;
  if (reading.grey.from == GreyFrom::Kept) reading.grey.colour = options.grey;
  if (light->map()) reading.paper_residual = light->map()->residual();
  reading.light = *light;
  reading.map = profile.map;
  reading.device_from_xyz = inverse(deviceToXyz(photo.facts()));
  reading.gain = through.gain;
  reading.veil_xyz = veil.xyz;
  reading.evened = at.evened;
  reading.influences = influences(measured, reading.card_in_photo, *light, at);
  for (std::size_t i = 0; i < scene.regions.panels.size(); ++i) reading.panels.push_back(readingOf(measured[i]));
  if (reading.card_in_photo) {
    reading.card = readingOf(measured.back());
  } else {
    reading.card.lab = *options.card_lab;
    reading.card.xyz = toXyz(*options.card_lab);
  }
  refreshDeviations(reading);
  return reading;
}

void widenRendering(Reading& reading, double factor) {
  for (Influence& influence : reading.influences)
    if (influence.part == Part::ToneCurve || influence.part == Part::ToneColour)
      for (Vec3& shift : influence.on_lab) shift = factor * shift;
  refreshDeviations(reading);
}

void refreshDeviations(Reading& reading) {
  const auto of = [&](std::size_t i) {
    Vec3 variance{};
    for (const Influence& influence : reading.influences)
      for (std::size_t k = 0; k < 3; ++k) variance[k] += influence.on_lab[i][k] * influence.on_lab[i][k];
    return Vec3{std::sqrt(variance[0]), std::sqrt(variance[1]), std::sqrt(variance[2])};
  };
  for (std::size_t i = 0; i < reading.panels.size(); ++i) reading.panels[i].lab_sd = of(i);
  reading.card.lab_sd = of(reading.panels.size());
}

Mat3 covarianceOfDifference(const Reading& reading, std::size_t panel, const Mat3& by_panel, const Mat3& by_card,
                            std::optional<Part> only) {
  Mat3 sum{};
  for (const Influence& influence : reading.influences) {
    if (only && influence.part != *only) continue;
    const Vec3 shift = by_panel * influence.on_lab[panel] + by_card * influence.on_lab[reading.panels.size()];
    sum = sum + outer(shift, shift);
  }
  return sum;
}

}  // namespace huewright
