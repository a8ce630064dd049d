#include "mix/advise.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ranges>
#include <set>

#include "mix/advice_words.hpp"
#include "mix/series_checks.hpp"

namespace huewright {
namespace {

constexpr double kFloorTold = 0.5;   // ΔE00 of the film's spread from which it is worth a word. A choice.

/// Where a series' tint stands in a tint file; nothing where the file does not hold it. In: name: as the series calls it, or empty; place: 0 for the strong tint, 1 for the weak one.
Result<std::optional<std::size_t>> placeInFile(const TintFile& file, const std::string& name, std::size_t place) {
  if (name.empty()) {
    if (file.tints.size() != 2) return fail(Code::TintFileUnusable, "the series does not say which of its tints are meant; name them there as tints, strong and weak");
    return std::optional(place);
  }
  const auto found = std::ranges::find(file.tints, name, &KnownTint::name);
  if (found == file.tints.end()) return std::nullopt;
  return std::optional(static_cast<std::size_t>(found - file.tints.begin()));
}

/// Loose priors, with the tints that a file knows in their places. Puts what the two are together, and the painter's film, into settings. Errors: TintFileUnusable.
Result<std::vector<TintPrior>> priorsFor(const Series& series, const std::optional<TintFile>& file, FitSettings& settings, bool& known) {
  std::vector<TintPrior> priors{strongPrior(), weakPrior()};
  if (!file) return priors;
  settings.film_sd = file->film_sd;
  settings.film_weight = std::max(file->film_weight, 1.0);
  const auto ground = nextGround(series);
  const double strange = ground ? strangeGround(*file, *ground) : 0;
  std::vector<std::size_t> places;
  for (std::size_t t = 0; t < 2; ++t) {
    const auto place = placeInFile(*file, t == 0 ? series.strong_name : series.weak_name, t);
    if (!place) return std::unexpected(place.error());
    if (!*place) continue;
    priors[t] = priorOf(file->tints[**place], strange);
    places.push_back(**place);
  }
  if (places.empty()) return fail(Code::TintFileUnusable, "it holds neither \"" + series.strong_name + "\" nor \"" + series.weak_name + "\"");
  if (places.size() == 2) settings.together = jointPrior(*file, places, strange);
  known = true;
  return priors;
}

/// Why share and coats cannot be told apart, by how the panels were sprayed; empty when they can.
std::string sprayedTogether(const Series& series) {
  std::set<double> shares, coats;
  double s = 0, n = 0, ss = 0, nn = 0, sn = 0;
  for (const SeriesPanel& panel : series.panels) {
    shares.insert(std::round(panel.share() * 1e4));
    coats.insert(panel.coats);
    s += panel.share();
    n += panel.coats;
  }
  const double count = static_cast<double>(series.panels.size());
  if (series.panels.size() == 1) return "there is one panel";
  if (shares.size() == 1 && coats.size() == 1) return "all have one mix and the same coats";
  if (shares.size() == 1) return "all have one mix";
  if (coats.size() == 1) return "all have " + coatsWords(*coats.begin());
  for (const SeriesPanel& panel : series.panels) {
    const double ds = panel.share() - s / count, dn = panel.coats - n / count;
    ss += ds * ds;
    nn += dn * dn;
    sn += ds * dn;
  }
  return std::abs(sn) > 0.95 * std::sqrt(ss * nn) ? "coats change whenever the share does" : "";
}

void addCautions(Advice& advice, const Groundwork& base) {
  if (advice.panels < 3 && !base.tints_known)
    advice.cautions.push_back({CautionCode::FewPanels, advice.panels == 0 ? "Nothing is sprayed yet" : advice.panels == 1 ? "There is one panel" : "There are two panels"});
  if (!advice.next) return;
  if (advice.next->shares_and_coats_trade && !base.tints_known)
    if (const std::string why = sprayedTogether(base.series); !why.empty()) advice.cautions.push_back({CautionCode::ShareOrCoats, why});
  if (advice.film_floor >= kFloorTold)
    advice.cautions.push_back({CautionCode::FilmFloor, fmt::format("A film that varies by {:.0f} % from panel to panel{} moves this colour by ΔE00 {:.1f}", 100 * filmSd(advice.fit.film_sd, advice.next->choice.coats),
                                                                   advice.fit.film_sd != kFilmSd ? ", as yours does," : "", advice.film_floor)});
  if (!advice.reach.reachable && advice.reach.other_pigment && (advice.panels >= 3 || base.tints_known))
    advice.cautions.push_back({CautionCode::OtherPigment, fmt::format("whatever share and coats, these tints stay ΔE00 {:.1f} off{}", advice.reach.nearest,
                                                                      advice.reach.stays.empty() ? "" : ", " + advice.reach.stays)});
}

}  // namespace

Result<Groundwork> groundwork(const Series& series, const std::optional<TintFile>& tints) {
  Groundwork base;
  CheckedSeries checked = withoutCopies(series);
  StagedSeries staged = oneStage(checked.series);
  for (ClearForecast& forecast : staged.forecasts) forecast.panel = checked.from[forecast.panel];
  base.forecasts = staged.forecasts;
  base.cautions = checked.cautions;
  base.cautions.insert(base.cautions.end(), staged.cautions.begin(), staged.cautions.end());
  base.series = staged.series;
  std::vector<double> extra = staged.extra;
  // Panels are named as the file counts them.
  std::vector<std::size_t>& from = base.from;
  for (const std::size_t i : staged.from) from.push_back(checked.from[i]);

  FitSettings settings{.sigma = series.sigma};
  const auto priors = priorsFor(series, tints, settings, base.tints_known);
  if (!priors) return std::unexpected(priors.error());
  const auto contradiction = findContradiction(base.series, *priors, settings);
  if (!contradiction) return std::unexpected(contradiction.error());
  if (*contradiction && (*contradiction)->odd) {
    const OddPanel& odd = *(*contradiction)->odd;
    std::string words = odd.panels.size() == 1 ? panelName(series, from[odd.panels.front()]) : pieceName(series, from[odd.panels.front()]);
    words += fmt::format(" does not go with the others{}", odd.fits_as.empty() ? "" : "; it would as " + odd.fits_as);
    words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
    base.cautions.push_back({CautionCode::PanelOdd, words});
    for (const std::size_t gone : odd.panels | std::views::reverse) {
      base.series.panels.erase(base.series.panels.begin() + static_cast<std::ptrdiff_t>(gone));
      extra.erase(extra.begin() + static_cast<std::ptrdiff_t>(gone));
      from.erase(from.begin() + static_cast<std::ptrdiff_t>(gone));
    }
  } else if (*contradiction) {
    std::string words = panelName(series, from[(*contradiction)->between[0]]) + " and " + panelName(series, from[(*contradiction)->between[1]]);
    words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
    base.cautions.push_back({CautionCode::PanelsContradict, words});
  }
  base.panels = panelReadings(base.series);
  for (std::size_t i = 0; i < base.panels.size(); ++i) base.panels[i].extra = extra[i];
  auto fit = fitTints(base.panels, *priors, settings);
  if (!fit) return std::unexpected(fit.error());
  base.fit = std::move(*fit);
  return base;
}

Result<Advice> advise(const Series& series, const AdviseOptions& options) {
  if (!series.target) return fail(Code::SeriesUnusable, "it has no target; give the wanted colour as target");
  const auto ground = nextGround(series);
  if (!ground) return fail(Code::SeriesUnusable, "it has no ground; give the colour of the bare ground as ground");
  auto base = groundwork(series, options.tints);
  if (!base) return std::unexpected(base.error());

  Advice advice;
  advice.cautions = base->cautions;
  advice.forecasts = base->forecasts;
  advice.fit = base->fit;
  advice.panels = base->panels.size();
  const Predictor predictor(base->fit, base->panels, base->tints_known ? ground : std::nullopt);
  const Aim aim(predictor, *series.target, *ground, tintPart(series.carrier_per_tint));
  const bool something_known = advice.panels > 0 || base->tints_known;
  if (something_known) {
    std::optional<LastPanel> last;
    if (!base->series.panels.empty()) last = LastPanel{base->series.panels.back().share(), base->series.panels.back().coats};
    advice.next = nextMix(aim, series.limits, last);
    advice.share_low = std::max(advice.next->best.share - 1.96 * advice.next->best.sd, 0.0);
    advice.share_high = std::min(advice.next->best.share + 1.96 * advice.next->best.sd, 1.0);
    advice.reach = reachOf(aim, series.limits, series.grounds);
    advice.alternatives = alternatives(aim, series.limits, *advice.next);
    const MixChoice& choice = advice.next->choice;
    const Prediction p = aim.predict({choice.share(), 1 - choice.share()}, choice.coats);
    advice.film_floor = filmSd(advice.fit.film_sd, choice.coats) * length(deltaVector(p.lab, p.lab).by_panel * p.by_ln_coats);
    const LearnPlan plan = whatTeachesMost(aim, series.limits, choice.share(), choice.coats);
    if (plan.sd_before > kGuessed && advice.reach.reachable && !base->tints_known) advice.learn = plan;
  } else {
    constexpr double kFirstShare = 0.33, kFirstCoats = 4;  // a middling mix (common practice, no source)
    advice.learn = whatTeachesMost(aim, series.limits, kFirstShare, std::clamp(kFirstCoats, std::ceil(series.limits.coats_low), std::floor(series.limits.coats_high)));
  }
  if (options.part_coats) {
    const SeriesPanel* mix = series.accepted ? &*series.accepted : base->series.panels.empty() ? nullptr : &base->series.panels.back();
    if (mix == nullptr) return fail(Code::SeriesUnusable, "it does not say what the part is sprayed with; give that mix as accepted");
    const Aim part(predictor, *series.target, *ground, tintPart(mix->carrier_per_tint.value_or(series.carrier_per_tint)));
    advice.part = onThePart(part, mix->share(), *options.part_coats);
  }
  addCautions(advice, *base);
  advice.sentence = adviceSentence(advice);
  return advice;
}

}  // namespace huewright
