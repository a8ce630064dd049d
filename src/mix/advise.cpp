#include "mix/advise.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "mix/advice_words.hpp"
#include "mix/series_checks.hpp"

namespace huewright {
namespace {

constexpr double kFloorTold = 0.5;   // ΔE00 of the film's spread from which it is worth a word. A choice.

/// In: ground: that the series' panels lie on.
Result<TintPrior> priorFor(const std::optional<TintFile>& file, const std::optional<Lab<D50>>& ground, const std::string& name, const TintPrior& loose, std::size_t place,
                           bool& known) {
  if (!file) return loose;
  const double strange = ground ? strangeGround(*file, *ground) : 0;
  const auto& tints = file->tints;
  if (name.empty()) {
    if (tints.size() != 2) return fail(Code::TintFileUnusable, "the series does not say which of its tints are meant; name them there as tints, strong and weak");
    known = true;
    return priorOf(tints[place], strange);
  }
  const auto found = std::ranges::find(tints, name, &KnownTint::name);
  if (found == tints.end()) return loose;
  known = true;
  return priorOf(*found, strange);
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
    advice.cautions.push_back({CautionCode::FilmFloor, fmt::format("A film that varies by {:.0f} % from panel to panel{} moves this colour by ΔE00 {:.1f}", 100 * advice.fit.film_sd,
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
  if (tints) {
    settings.film_sd = tints->film_sd;
    settings.film_weight = std::max(tints->film_weight, 1.0);
  }
  std::vector<TintPrior> priors;
  for (std::size_t t = 0; t < 2; ++t) {
    const auto prior = priorFor(tints, nextGround(series), t == 0 ? series.strong_name : series.weak_name, t == 0 ? strongPrior() : weakPrior(), t, base.tints_known);
    if (!prior) return std::unexpected(prior.error());
    priors.push_back(*prior);
  }
  if (tints && !base.tints_known) return fail(Code::TintFileUnusable, "it holds neither \"" + series.strong_name + "\" nor \"" + series.weak_name + "\"");

  const auto contradiction = findContradiction(base.series, priors, settings);
  if (!contradiction) return std::unexpected(contradiction.error());
  if (*contradiction && (*contradiction)->odd) {
    const OddPanel& odd = *(*contradiction)->odd;
    std::string words = fmt::format("{} does not go with the others{}", panelName(series, from[odd.index]), odd.fits_as.empty() ? "" : "; it would as " + odd.fits_as);
    words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
    base.cautions.push_back({CautionCode::PanelOdd, words});
    base.series.panels.erase(base.series.panels.begin() + static_cast<std::ptrdiff_t>(odd.index));
    extra.erase(extra.begin() + static_cast<std::ptrdiff_t>(odd.index));
    from.erase(from.begin() + static_cast<std::ptrdiff_t>(odd.index));
  } else if (*contradiction) {
    std::string words = panelName(series, from[(*contradiction)->between[0]]) + " and " + panelName(series, from[(*contradiction)->between[1]]);
    words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
    base.cautions.push_back({CautionCode::PanelsContradict, words});
  }
  base.panels = panelReadings(base.series);
  for (std::size_t i = 0; i < base.panels.size(); ++i) base.panels[i].extra = extra[i];
  auto fit = fitTints(base.panels, priors, settings);
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
    advice.film_floor = advice.fit.film_sd * length(deltaVector(p.lab, p.lab).by_panel * p.by_ln_coats);
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
