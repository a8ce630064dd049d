#include "judge/correct.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "camera/evenness.hpp"

namespace huewright {
namespace {

// Relative brightness; judgement, tried on simulated scenes.
constexpr double kPenumbra = 0.02;      // where a shadow's edge was cut out of a region and paper tells how the light lies
constexpr double kPenumbraAlone = 0.05; // the same without paper: nobody knows in which of the two lights the grey lies
constexpr double kSteady = 0.04;        // paper all round a region that agrees so well lies in one light
constexpr double kShade = 0.05;         // a shadow, not a misfit of the surface
constexpr double kRim = 0.03;           // what a shadow over a whole region leaves unknown: its depth differs from place to place
constexpr std::size_t kFewSpots = 5;

/// The paper near a region: natural logarithms of its brightness over the surface's.
struct PaperHere {
  std::vector<double> off{};  ///< in rising order; things and ink left out
  double at(double share) const { return off[static_cast<std::size_t>(share * static_cast<double>(off.size() - 1) + 0.5)]; }
};

PaperHere paperNear(const Named& region, const LightMap& map) {
  double longest = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const Point a = region.quad.corners[i], b = region.quad.corners[(i + 1) % 4];
    longest = std::max(longest, std::hypot(a.x - b.x, a.y - b.y));
  }
  constexpr double kReach = 0.85, kThing = -1.6;  // of the longer side, from the middle; a fifth of the light
  PaperHere here;
  const Point middle = centre(region.quad);
  for (const auto& spot : map.departures())
    if (std::hypot(spot.at.x - middle.x, spot.at.y - middle.y) < kReach * longest && spot.log_ratio > kThing) here.off.push_back(spot.log_ratio);
  std::ranges::sort(here.off);
  return here;
}

/// Takes a region that lies in a shadow of its own out into the light of the rest, as the paper round it tells.
void takeOutOfShade(Named& region, const LightMap& map) {
  const PaperHere here = paperNear(region, map);
  if (here.off.size() < kFewSpots) return;
  const double range = here.at(0.9) - here.at(0.1), middle = here.at(0.5), step = region.patch.shade_step;
  double bring = 0;
  if (step > 0) {
    // A shadow's edge crosses the region. What was kept of it, mostly the lit part, lies in the light of the paper on the same side.
    const bool lit = region.patch.shade_lit;
    const double limit = lit ? here.at(0.97) - 0.5 * step : here.at(0.03) + 0.5 * step;
    std::vector<double> alike;
    std::ranges::copy_if(here.off, std::back_inserter(alike), [&](double off) { return lit ? off > limit : off < limit; });
    region.shade = Shading::Across;
    bring = alike[alike.size() / 2];
    region.shade_sd = std::hypot(lit ? kPenumbra : kPenumbraAlone, 0.5 * (alike.back() - alike.front()));
  } else if (range > kShade) {  // an edge is near, and nobody knows on which side of it the region lies
    region.shade = Shading::Across;
    bring = middle;
    region.shade_sd = 0.5 * range;
  } else if (std::abs(middle) > kShade && range < kSteady) {
    region.shade = Shading::Over;
    bring = middle;
    region.shade_sd = std::hypot(kRim, range);
  } else {
    region.paper_off = middle;
    return;
  }
  const Vec3 lit = std::exp(-bring) * toVec(region.patch.mean);
  region.patch.mean = {lit[0], lit[1], lit[2]};
  region.patch.of_mean = std::exp(-2 * bring) * region.patch.of_mean;
}

/// How far the nearest grey is from a place, pixels; 1 without any.
double fromGrey(const Samples& samples, Point place) {
  double nearest = samples.greys.empty() ? 1 : 1e300;
  for (const Named& grey : samples.greys) nearest = std::min(nearest, std::hypot(place.x - grey.patch.centre.x, place.y - grey.patch.centre.y));
  return nearest;
}

/// What the slopes explain may be the card's fault as much as the panels': the one that lies farther from the grey, whose light is known, takes more of it.
/// Differences stay as they are. In and out: of each panel, natural log of what was taken off its brightness.
void shareWithCard(const Samples& samples, std::vector<Measured>& measured, std::vector<double>& evened) {
  const double of_card = fromGrey(samples, samples.coloured.back().patch.centre);
  double on_card = 0;
  for (std::size_t i = 0; i < evened.size(); ++i) {
    const double of_panel = fromGrey(samples, samples.coloured[i].patch.centre);
    on_card += of_card / std::max(of_card + of_panel, 1.0) * evened[i] / static_cast<double>(evened.size());
  }
  const double factor = std::exp(on_card);
  for (Measured& m : measured) {
    m.xyz = {factor * m.xyz.X, factor * m.xyz.Y, factor * m.xyz.Z};
    m.correction = factor * m.correction;
  }
  for (double& log_ratio : evened) log_ratio -= on_card;
}

}  // namespace

Result<Light> lightOf(Samples& samples, const MeasureOptions& options) {
  std::optional<LightMap> map = options.sheet;
  if (!map)
    if (auto fitted = LightMap::fit(samples.paper)) map = std::move(*fitted);  // too little paper: the greys must do
  for (auto* regions : {&samples.coloured, &samples.greys})
    for (Named& region : *regions) {
      if (map && !options.sheet) takeOutOfShade(region, *map);
      else if (region.patch.shade_step != 0) {
        region.shade = Shading::Across;
        region.shade_sd = kPenumbraAlone;
      }
    }
  std::vector<Patch> greys;
  for (const Named& grey : samples.greys) greys.push_back(grey.patch);
  if (!greys.empty() || !map) return Light::fromGreys(greys, greyColour(options), std::move(map));
  if (!options.sheet) return Light::fromPaper(std::move(*map), kPaperY);
  return Light::evenedTo(std::move(*map), samples.coloured.back().patch.centre);
}

std::vector<Measured> measureColours(const Samples& samples, const Light& light, const Veil& veil, const MeasureOptions& options, bool card_in_photo,
                                     Circumstances& at) {
  constexpr double kMisfit = 0.15;  // of the paper's residual: a surface that is not quite quadratic; tuned on simulated scenes
  const auto& coloured = samples.coloured;
  std::vector<Measured> measured;
  for (std::size_t i = 0; i < coloured.size(); ++i) {
    const Patch& patch = coloured[i].patch;
    Mat3 correction = light.correction(patch.centre);
    if (card_in_photo && i + 1 < coloured.size()) {
      const Named& card = coloured.back();
      const bool shaded = coloured[i].shade != Shading::None || card.shade != Shading::None;
      Evenness even{0, 0};  // slopes in and beside a shadow tell of the shadow
      if (options.by_slopes && !shaded) even = evennessBetween(patch, card.patch, light);
      correction = std::exp(-even.log_ratio) * correction;
      double course = 0;  // variance
      if (light.map()) {
        const Vec3 v = light.map()->variance(patch.centre, card.patch.centre);
        const double misfit = kMisfit * light.map()->residual();
        course = (v[0] + v[1] + v[2]) / 3 + misfit * misfit + std::pow(coloured[i].paper_off - card.paper_off, 2);
      }
      at.evened.push_back(even.log_ratio);
      at.slopes_sd.push_back(even.sd);
      at.course_sd.push_back(std::sqrt(course));
      at.most_uneven = std::max(at.most_uneven, std::abs(even.log_ratio));
      if (samples.greys.size() == 1 && !light.map())
        at.colour_drift = std::max(at.colour_drift, colourDriftOver(samples.greys[0].patch, patch.centre, card.patch.centre));
    }
    if (!card_in_photo)
      if (const auto followed = light.followedSd(patch.centre)) at.course_sd.push_back(*followed);
    at.shade_sd.push_back(coloured[i].shade_sd);
    const bool glossy = !card_in_photo || i + 1 < coloured.size() || options.card_gloss != Gloss::No;
    const Vec3 xyz = correction * (toVec(patch.mean) - (glossy ? 1.0 : 0.0) * veil.xyz);
    measured.push_back({patch, {xyz[0], xyz[1], xyz[2]}, correction});
  }
  if (!at.evened.empty()) shareWithCard(samples, measured, at.evened);
  return measured;
}

}  // namespace huewright
