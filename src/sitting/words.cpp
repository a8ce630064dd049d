#include "sitting/words.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "colour/rgb.hpp"
#include "judge/headline.hpp"
#include "mix/mix_words.hpp"
#include "paper/swatches.hpp"
#include "session/report_text.hpp"
#include "sitting/window_words.hpp"

namespace huewright {
namespace {

constexpr double kShownPart = 0.005;   // ΔE00: a smaller part of the budget would read 0.00

std::string spaced(std::string_view word) {
  std::string out(word);
  std::ranges::replace(out, '_', ' ');
  return out;
}

std::vector<BudgetRow> budgetRows(const Verdict& verdict) {
  std::vector<BudgetRow> rows;
  for (std::size_t c = 0; c < kCauseCount; ++c) {
    const auto cause = static_cast<Cause>(c);
    const double of_cause = ofCause(verdict.budget, cause);
    if (of_cause < kShownPart) continue;
    rows.push_back({spaced(causeName(cause)), {}, of_cause});
    for (std::size_t p = 0; p < kPartCount; ++p) {
      const auto part = static_cast<Part>(p);
      if (causeOf(part) == cause && verdict.budget[p] >= kShownPart)
        rows.push_back({spaced(causeName(cause)), fmt::format("{} ({})", partWords(part), originWords(originOf(part))), verdict.budget[p]});
    }
  }
  return rows;
}

/// What the other photos showed, one sentence or two each.
std::vector<std::string> looks(const JudgeReport& report) {
  std::vector<std::string> out;
  if (report.swap)
    out.push_back(fmt::format("Averaged over two shots, panel and card changed over. They differ by {:.1f} in ΔE00; the place alone made the panel {:.1f} % {} against the card.", report.swap->apart,
                              100 * std::abs(std::expm1(report.swap->brightness)), report.swap->brightness < 0 ? "darker" : "lighter"));
  if (const auto& r = report.repeats) {
    out.push_back(r->used == 1 ? std::string("One photo was used.")
                               : fmt::format("{} photos together; from one to the next their difference scatters by ΔE00 {:.2f} along an axis.", r->used, r->scatter));
    if (r->left_out) out.push_back(fmt::format("{} does not go with the others (ΔE00 {:.1f}) and was left out.", r->left_out->filename().string(), r->left_out_by));
  }
  const auto look = [&](const std::optional<ViewReport>& view, const char* where) {
    if (view) out.push_back(fmt::format("{}: {} {}", where, view->verdicts[report.main].sentence, view->sentence));
  };
  look(report.also, "In the other light");
  look(report.flop, "Tilted");
  return out;
}

}  // namespace

Swatch swatchOf(const Lab<D50>& lab) {
  const auto rgb = toSrgb8(lab);
  return {{rgb[0], rgb[1], rgb[2]}, outsideSrgb(lab), fmt::format("L* {:.1f}  a* {:.1f}  b* {:.1f}", lab.L + 0.0, lab.a + 0.0, lab.b + 0.0)};
}

std::string distanceLine(const Verdict& verdict) {
  return fmt::format("ΔE00 {:.1f} ({:.1f} to {:.1f}), near enough is {:.1f}", verdict.de00, verdict.low, verdict.high, verdict.tolerance);
}

JudgedShown judgedShown(std::shared_ptr<const JudgeReport> report) {
  JudgedShown out;
  const JudgeReport& r = *report;
  out.main = r.ranking.order.empty() ? r.main : r.ranking.order.front().panel;
  out.card = swatchOf(r.reading.card.lab);
  for (std::size_t i = 0; i < r.verdicts.size(); ++i) {
    const Verdict& v = r.verdicts[i];
    PanelShown panel{r.names[i], swatchOf(r.reading.panels[i].lab), v.band, headline(v, r.reading.panels[i].lab, r.reading.card.lab), v.sentence, distanceLine(v), v.de00, v.low, v.high, {}, budgetRows(v)};
    if (r.coats[i] != 0)  // bare ground needs no advice
      for (const Step& step : (i == r.main ? r.advice : adviseOnePanel(r.reading, i, v, r.mixes[i], r.coats[i])).actions) panel.actions.push_back(windowWords(step.sentence));
    out.panels.push_back(std::move(panel));
    out.tolerance = v.tolerance;
  }
  out.ranking = r.ranking.sentence;
  for (const Caution& caution : r.cautions) out.cautions.push_back(windowWords(caution));
  // Good photos need no word.
  if (!r.trust.reasons.empty()) out.trust = r.trust.sentence;
  for (const std::string& better : r.trust.better) out.better.push_back(windowWords(better));
  out.looks = tagSentences(r);
  for (std::string& look : looks(r)) out.looks.push_back(std::move(look));
  out.report = std::move(report);
  return out;
}

std::string factsWords(const PhotoFacts& facts) { return fmt::format("{}, {} × {}, {}", facts.format, facts.size.width, facts.size.height, facts.encoding); }

SeriesShown seriesShown(const Series& series, const Result<AdviseReport>& advice, const Result<SeriesPlot>& plot) {
  SeriesShown out;
  for (std::size_t i = 0; i < series.panels.size(); ++i) {
    SeriesRowShown row{swatchOf(series.panels[i].lab), panelName(series, i), {}, 0};
    if (series.target) row.de00 = deltaE2000(series.panels[i].lab, *series.target);
    out.rows.push_back(std::move(row));
  }
  if (series.target) out.target = swatchOf(*series.target);
  if (const auto ground = nextGround(series)) {
    out.ground = swatchOf(*ground);
    out.own_ground = true;
    out.grounds.push_back({.name = series.ground ? series.ground->name : "", .bare = *out.ground});
  }
  for (const NamedGround& ground : series.grounds) out.grounds.push_back({.name = ground.name, .bare = swatchOf(ground.lab)});
  if (!advice) {
    out.trouble = windowWords(advice.error());
    return out;
  }
  const Advice& a = advice->advice;
  if (a.next) {
    out.next = swatchOf(a.next->choice.lab);
    out.next_words = mixWords(a.next->choice);
  }
  for (const Alternative& other : a.alternatives) out.alternatives.push_back(fmt::format("{}, ΔE00 {}. {}", mixWords(other.choice), distanceWords(other.choice), other.trade));
  for (const Caution& caution : a.cautions) out.cautions.push_back(windowWords(caution));
  if (plot) out.plot = std::make_shared<const SeriesPlot>(*plot);
  out.advice = std::make_shared<const AdviseReport>(*advice);
  return out;
}

void showGrounds(const GroundsReport& report, const Series& series, SeriesShown& shown) {
  shown.grounds_mix = fmt::format("{} at {}{}", partsWords(report.strong, report.weak), coatsWords(report.coats), report.next_parts.empty() ? ", accepted" : ", advised next");
  if (report.looks.empty()) return;
  // The report leaves out what has the very colour of the first.
  std::size_t next = 0;
  for (std::size_t i = 0; i < shown.grounds.size(); ++i) {
    const bool own = shown.own_ground && i == 0;
    const bool same = !own && shown.own_ground && series.grounds[i - 1].lab == report.looks.front().ground;
    if (!same && next >= report.looks.size()) return;
    const GroundLook& look = same ? report.looks.front() : report.looks[next++];
    shown.grounds[i].mixed = swatchOf(look.lab);
    shown.grounds[i].words = same ? "The same as its own." : look.words;
    shown.grounds[i].lean = same ? "" : look.lean;
  }
}

}  // namespace huewright
