#include "mix/series_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

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
  std::vector<double> surprises;
  std::vector<Predictor> without;
  if (all.size() < 3) return std::nullopt;
  for (std::size_t i = 0; i < all.size(); ++i) {
    std::vector<PanelReading> others = all;
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
    auto fit = fitTints(others, priors, settings);
    if (!fit) return std::unexpected(fit.error());
    without.emplace_back(std::move(*fit), std::move(others));
    surprises.push_back(surpriseOf(without.back(), all[i], settings.sigma));
  }
  // A wrong label pulls at the others' predictions as well, so the odd one is that without which the rest fit best, not that which surprises most.
  std::size_t worst = 0;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (without[i].fit().sum_of_squares < without[worst].fit().sum_of_squares) worst = i;
  if (surprises[worst] < kOdd) return std::nullopt;
  // Is all well without the worst? Then it is the odd one; a contradiction between two panels alone cannot be laid at either's door.
  std::vector<PanelReading> rest = without[worst].panels();
  double left = 0;
  for (std::size_t i = 0; i < rest.size(); ++i) left = std::max(left, without[worst].fit().misses[i]);
  const bool others_agree = left < 3 * std::sqrt(settings.sigma * settings.sigma + kMisfit * kMisfit);
  Contradiction found;
  if (all.size() >= 5 && others_agree) {
    found.odd = OddPanel{worst, surprises[worst], likelyLabel(without[worst], all[worst], series.panels[worst], settings.sigma)};
    return found;
  }
  std::vector<std::size_t> order(all.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::ranges::sort(order, [&](std::size_t a, std::size_t b) { return surprises[a] > surprises[b]; });
  found.between = {std::min(order[0], order[1]), std::max(order[0], order[1])};
  return found;
}

}  // namespace huewright
