#include "camera/evenness.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace huewright {
namespace {

// Standard deviations, relative brightness; found on the simulated scenes of tests/support (docs/uncertainty.md).
constexpr double kUsualOneGrey = 0.05, kUsualTwoGreys = 0.02, kUsualMapped = 0.02;  // between panel and card, what set-ups have
constexpr double kFilm = 0.004;                                 // across one region's width, from the film
constexpr double kCourseBend = 0.0004;                          // times the fourth power of the way over a region's width: the course between, which two slopes do not tell; tried on real charts
constexpr double kUnknown = 0.008;                              // where no slope could be read

bool readable(const Patch& p) { return p.trend_sd[0] > 0 && p.trend_sd[1] > 0; }

}  // namespace

Evenness evennessBetween(const Patch& panel, const Patch& card, const Light& light) {
  if (!readable(panel) || !readable(card)) return {0, kUnknown};
  const std::array<double, 2> way{panel.centre.x - card.centre.x, panel.centre.y - card.centre.y};
  const auto gain_panel = light.slope(panel.centre), gain_card = light.slope(card.centre);
  double seen = 0, apart = 0, noise = 0, far = 0;
  for (std::size_t k = 0; k < 2; ++k) {
    const double on_panel = panel.trend[k] + gain_panel[k], on_card = card.trend[k] + gain_card[k];
    seen += 0.5 * (on_panel + on_card) * way[k];
    apart += (on_panel - on_card) * way[k];
    noise += way[k] * way[k] * (panel.trend_sd[k] * panel.trend_sd[k] + card.trend_sd[k] * card.trend_sd[k]);
    far += way[k] * way[k];
  }
  const double width = std::sqrt(static_cast<double>(std::min(panel.pixels, card.pixels)));
  const double film = kFilm * std::sqrt(far / 2) / width;          // half of each region's slope counts, two regions
  // Slopes that disagree: a film that slopes in one of them, or a course between that is not quadratic. A quarter of the gap.
  const double course = std::max(0.0, apart * apart - noise) / 16;
  const double bend = kCourseBend * std::pow(far / (width * width), 2);
  const double variance = 0.25 * noise + film * film + bend * bend + course;
  const double usual = light.map() ? kUsualMapped : light.greys() < 2 ? kUsualOneGrey : kUsualTwoGreys;
  const double trust = usual * usual / (usual * usual + variance);
  return {trust * seen, std::sqrt(trust * variance)};
}

double colourDriftOver(const Patch& grey, Point from, Point to) {
  constexpr double kClearly = 3.0;
  const std::array<double, 2> way{to.x - from.x, to.y - from.y};
  std::array<double, 3> change{};
  double mean = 0, variance = 0;
  for (std::size_t k = 0; k < 3; ++k)
    for (std::size_t d = 0; d < 2; ++d) {
      change[k] += grey.channel_trend[k][d] * way[d];
      mean += grey.channel_trend[k][d] * way[d] / 3;
      variance += grey.channel_trend_sd[k][d] * grey.channel_trend_sd[k][d] * way[d] * way[d] / 3;
    }
  double most = 0;
  for (const double c : change) most = std::max(most, std::abs(c - mean));
  return most > kClearly * std::sqrt(variance) ? most : 0;
}

}  // namespace huewright
