#include "mix/series_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include "colour/delta_e.hpp"
#include "mix/prediction.hpp"

namespace huewright {
namespace {

bool samePanel(const SeriesPanel& a, const SeriesPanel& b) {
  return a.strong == b.strong && a.weak == b.weak && a.coats == b.coats && a.lab == b.lab && a.ground == b.ground && a.carrier_per_tint == b.carrier_per_tint &&
         a.stage == b.stage;
}

/// An honest strip takes its three degrees of freedom away when it is left out; thrice that and a little is asked. A choice.
constexpr double kFurtherStrip = 10;

/// What a fit without some panels says of them.
struct LeftOut {
  std::vector<std::size_t> panels;   // rising
  Predictor without;
  double surprise = 0;               // of the strangest of them
};

/// Squared standardised distance of a reading from a prediction. In: ln film as the other strips of its piece have it; sigma: of the reading, root sum of the axes.
double surpriseOf(const Predictor& predictor, const PanelReading& panel, double sigma) {
  std::vector<double> coats, ln_film;
  for (std::size_t i = 0; i < predictor.panels().size(); ++i)
    if (panel.piece != kNoPiece && predictor.panels()[i].piece == panel.piece) {
      coats.push_back(predictor.panels()[i].coats);
      ln_film.push_back(predictor.fit().ln_film[i]);
    }
  const FilmGuess film = filmAmong(coats, ln_film, panel.coats);
  const Prediction p = predictor.at({panel.shares, panel.tint_part, panel.coats * std::exp(film.ln_film)}, panel.ground);
  const Mat3 colour = p.covariance + (film.variance * predictor.fit().film_sd * predictor.fit().film_sd) * outer(p.by_ln_coats, p.by_ln_coats);
  const DeltaVector delta = deltaVector(p.lab, panel.lab);
  Mat3 covariance = delta.by_panel * colour * transpose(delta.by_panel);
  for (std::size_t i = 0; i < 3; ++i) covariance(i, i) += sigma * sigma / 3;
  return dot(delta.u, inverse(covariance) * delta.u);
}

double strangest(const Predictor& predictor, const std::vector<PanelReading>& panels, double sigma) {
  double most = 0;
  for (const PanelReading& panel : panels) most = std::max(most, surpriseOf(predictor, panel, sigma));
  return most;
}

/// "4 coats", or "strips of 2, 3 and 4 coats".
std::string coatsLabel(const std::vector<PanelReading>& panels) {
  if (panels.size() == 1) return coatsWords(panels.front().coats);
  std::string words = "strips of ";
  for (std::size_t i = 0; i < panels.size(); ++i)
    words += fmt::format("{}{:.3g}", i == 0 ? "" : i + 1 == panels.size() ? " and " : ", ", panels[i].coats);
  return words + " coats";
}

/// The label under which the panel would go with the others, if a common slip explains it. In: `as`: the first of them as the file has it.
std::string likelyLabel(const Predictor& others, const std::vector<PanelReading>& panels, const SeriesPanel& as, double sigma) {
  struct Slip {
    std::vector<PanelReading> readings;
    std::string words;
  };
  std::vector<Slip> slips;
  if (as.strong != as.weak) {
    Slip swapped{panels, partsWords(as.weak, as.strong)};
    for (PanelReading& reading : swapped.readings) std::swap(reading.shares[0], reading.shares[1]);
    slips.push_back(std::move(swapped));
  }
  for (const double change : {-2.0, -1.0, 1.0, 2.0}) {
    if (std::ranges::min(panels, {}, &PanelReading::coats).coats + change <= 0) continue;
    Slip other{panels, {}};
    for (PanelReading& reading : other.readings) reading.coats += change;
    other.words = coatsLabel(other.readings);
    slips.push_back(std::move(other));
  }
  double least = 12;  // no slip is named that would itself be surprising; chi-square with three degrees of freedom passes 11.3 once in a hundred (from memory)
  std::string words;
  for (const Slip& slip : slips)
    if (const double s = strangest(others, slip.readings, sigma); s < least) {
      least = s;
      words = slip.words;
    }
  return words;
}

/// The panels worth leaving out in turn.
Result<std::vector<std::size_t>> suspectsOf(const std::vector<PanelReading>& all, std::span<const TintPrior> priors, const FitSettings& settings) {
  std::vector<std::size_t> order(all.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  if (all.size() <= kAllLookedAt) return order;
  const auto fit = fitTints(all, priors, settings);
  if (!fit) return std::unexpected(fit.error());
  const auto strange = [&](std::size_t i) {
    const double miss = fit->misses[i] / fit->per_axis, film = fit->ln_film[i] / filmSd(fit->film_sd, all[i].coats);
    return miss * miss + film * film;
  };
  std::ranges::sort(order, std::greater{}, strange);
  order.resize(kAllLookedAt);
  return order;
}

std::vector<PanelReading> picked(const std::vector<PanelReading>& all, const std::vector<std::size_t>& which) {
  std::vector<PanelReading> out;
  for (const std::size_t i : which) out.push_back(all[i]);
  return out;
}

/// The strips of each stepped panel.
std::vector<std::vector<std::size_t>> steppedPanels(const std::vector<PanelReading>& all) {
  std::map<int, std::vector<std::size_t>> strips;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (all[i].piece != kNoPiece) strips[all[i].piece].push_back(i);
  std::vector<std::vector<std::size_t>> out;
  for (auto& [piece, of] : strips)
    if (of.size() > 1) out.push_back(std::move(of));
  return out;
}

Result<LeftOut> lookWithout(const std::vector<PanelReading>& all, std::vector<std::size_t> panels, std::span<const TintPrior> priors, const FitSettings& settings) {
  std::vector<PanelReading> others;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (!std::ranges::binary_search(panels, i)) others.push_back(all[i]);
  auto fit = fitTints(others, priors, settings);
  if (!fit) return std::unexpected(fit.error());
  LeftOut look{std::move(panels), Predictor(std::move(*fit), std::move(others))};
  look.surprise = strangest(look.without, picked(all, look.panels), settings.sigma);
  return look;
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
    auto look = lookWithout(all, {i}, priors, as_believed);
    if (!look) return std::unexpected(look.error());
    looks.push_back(std::move(*look));
  }
  // A wrong label pulls at the others' predictions as well, so the odd one is that without which the rest fit best, not that which surprises most.
  // A whole stepped panel has more to take away: it must take away kFurtherStrip for each strip beyond the first.
  const auto left = [](const LeftOut& look) { return look.without.fit().sum_of_squares + kFurtherStrip * static_cast<double>(look.panels.size() - 1); };
  const std::size_t singles = looks.size();
  for (const auto& strips : steppedPanels(all)) {
    if (all.size() < strips.size() + 4) continue;
    auto look = lookWithout(all, strips, priors, as_believed);
    if (!look) return std::unexpected(look.error());
    looks.push_back(std::move(*look));
  }
  const auto worst = std::ranges::min_element(looks, {}, left);
  if (worst->surprise < kOdd) return std::nullopt;
  Contradiction found;
  const bool others_agree = std::ranges::max(worst->without.fit().misses) < 3 * std::sqrt(settings.sigma * settings.sigma + kMisfit * kMisfit);
  if (all.size() >= worst->panels.size() + 4 && others_agree) {
    found.odd = OddPanel{worst->panels, worst->surprise, likelyLabel(worst->without, picked(all, worst->panels), series.panels[worst->panels.front()], settings.sigma)};
    return found;
  }
  // A contradiction of few cannot be laid at one panel's door.
  looks.erase(looks.begin() + static_cast<std::ptrdiff_t>(singles), looks.end());
  std::ranges::sort(looks, std::greater{}, &LeftOut::surprise);
  found.between = {std::min(looks[0].panels[0], looks[1].panels[0]), std::max(looks[0].panels[0], looks[1].panels[0])};
  return found;
}

}  // namespace huewright
