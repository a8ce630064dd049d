#include "mix/series_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "colour/delta_e.hpp"
#include "mix/prediction.hpp"

namespace huewright {
namespace {

bool samePanel(const SeriesPanel& a, const SeriesPanel& b) {
  return a.strong == b.strong && a.weak == b.weak && a.coats == b.coats && a.lab == b.lab && a.ground == b.ground && a.carrier_per_tint == b.carrier_per_tint &&
         a.stage == b.stage;
}

/// Squared standardised distance of a reading from a prediction; `noise`: variance of one axis of the reading.
double surpriseOf(const Predictor& predictor, const PanelReading& panel, double sigma) {
  const Prediction p = predictor.at({panel.shares, panel.tint_part, panel.coats}, panel.ground);
  const DeltaVector delta = deltaVector(p.lab, panel.lab);
  Mat3 covariance = delta.by_panel * p.with_film * transpose(delta.by_panel);
  for (std::size_t i = 0; i < 3; ++i) covariance(i, i) += sigma * sigma / 3;
  return dot(delta.u, inverse(covariance) * delta.u);
}

/// The label under which the panel would go with the others, if a common slip explains it.
std::string likelyLabel(const Predictor& others, const PanelReading& panel, const SeriesPanel& as, double sigma) {
  struct Slip {
    PanelReading reading;
    std::string words;
  };
  std::vector<Slip> slips;
  if (as.strong != as.weak) {
    PanelReading swapped = panel;
    std::swap(swapped.shares[0], swapped.shares[1]);
    slips.push_back({swapped, partsWords(as.weak, as.strong)});
  }
  for (const double change : {-2.0, -1.0, 1.0, 2.0}) {
    if (as.coats + change <= 0) continue;
    PanelReading other = panel;
    other.coats += change;
    slips.push_back({other, coatsWords(other.coats)});
  }
  double least = 12;  // no slip is named that would itself be surprising; chi-square with three degrees of freedom passes 11.3 once in a hundred (from memory)
  std::string words;
  for (const Slip& slip : slips)
    if (const double s = surpriseOf(others, slip.reading, sigma); s < least) {
      least = s;
      words = slip.words;
    }
  return words;
}

struct LeftOut {
  std::size_t panel;
  Predictor without;
  double surprise;
};

/// The panels worth leaving out in turn.
Result<std::vector<std::size_t>> suspectsOf(const std::vector<PanelReading>& all, std::span<const TintPrior> priors, const FitSettings& settings) {
  std::vector<std::size_t> order(all.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  if (all.size() <= kAllLookedAt) return order;
  const auto fit = fitTints(all, priors, settings);
  if (!fit) return std::unexpected(fit.error());
  const auto strange = [&](std::size_t i) {
    const double miss = fit->misses[i] / fit->per_axis, film = fit->ln_film[i] / fit->film_sd;
    return miss * miss + film * film;
  };
  std::ranges::sort(order, std::greater{}, strange);
  order.resize(kAllLookedAt);
  return order;
}

}  // namespace

CheckedSeries withoutCopies(const Series& series) {
  CheckedSeries out;
  out.series = series;
  out.series.panels.clear();
  for (std::size_t i = 0; i < series.panels.size(); ++i) {
    const bool copy = std::ranges::any_of(out.series.panels, [&](const SeriesPanel& kept) { return samePanel(kept, series.panels[i]); });
    if (copy) continue;
    out.series.panels.push_back(series.panels[i]);
    out.from.push_back(i);
  }
  if (const std::size_t copies = series.panels.size() - out.from.size(); copies > 0)
    out.cautions.push_back({CautionCode::SeriesCopies, fmt::format("{} of the {} panels", copies, series.panels.size())});
  return out;
}

Result<std::optional<Contradiction>> findContradiction(const Series& series, std::span<const TintPrior> priors, const FitSettings& settings) {
  const std::vector<PanelReading> all = panelReadings(series);
  if (all.size() < 3) return std::nullopt;
  FitSettings as_believed = settings;
  as_believed.learn_film = false;
  const auto suspects = suspectsOf(all, priors, as_believed);
  if (!suspects) return std::unexpected(suspects.error());
  std::vector<LeftOut> looks;
  for (const std::size_t i : *suspects) {
    std::vector<PanelReading> others = all;
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
    auto fit = fitTints(others, priors, as_believed);
    if (!fit) return std::unexpected(fit.error());
    Predictor predictor(std::move(*fit), std::move(others));
    const double surprise = surpriseOf(predictor, all[i], settings.sigma);
    looks.push_back({i, std::move(predictor), surprise});
  }
  // A wrong label pulls at the others' predictions as well, so the odd one is that without which the rest fit best, not that which surprises most.
  const auto worst = std::ranges::min_element(looks, {}, [](const LeftOut& look) { return look.without.fit().sum_of_squares; });
  if (worst->surprise < kOdd) return std::nullopt;
  const bool others_agree = std::ranges::max(worst->without.fit().misses) < 3 * std::sqrt(settings.sigma * settings.sigma + kMisfit * kMisfit);
  Contradiction found;
  if (all.size() >= 5 && others_agree) {
    found.odd = OddPanel{worst->panel, worst->surprise, likelyLabel(worst->without, all[worst->panel], series.panels[worst->panel], settings.sigma)};
    return found;
  }
  // A contradiction of few cannot be laid at one panel's door.
  std::ranges::sort(looks, std::greater{}, &LeftOut::surprise);
  found.between = {std::min(looks[0].panel, looks[1].panel), std::max(looks[0].panel, looks[1].panel)};
  return found;
}

}  // namespace huewright
