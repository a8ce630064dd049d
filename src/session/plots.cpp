#include "session/plots.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.hpp"
#include "mix/mix_words.hpp"
#include "session/series_names.hpp"

namespace huewright {
namespace {

constexpr int kCurveSteps = 100;
constexpr double kSameCoats = 1e-6;
constexpr double kOtherStrip = 2;  // ΔE00 from where a panel's bare strip counts as another ground in the drawing. A choice.

std::string drawable(const std::string& text) { return isPlainUtf8(text) ? text : asPlainUtf8(text); }

SeriesPlotPanel plotPanel(const SeriesPanel& panel, const Lab<D50>& target, double axis_variance) {
  SeriesPlotPanel out;
  out.label = partsWords(panel.strong, panel.weak) + ", " + coatsWords(panel.coats);
  out.share = panel.share();
  out.lab = panel.lab;
  const DeltaVector delta = deltaVector(panel.lab, target);
  out.de00 = length(delta.u);
  // sigma is the reading's in ΔE00 already.
  const DistanceRange range = distanceRange(delta.u, Mat3::diagonal({axis_variance, axis_variance, axis_variance}));
  out.low = range.low;
  out.high = std::max(range.high, out.de00);
  return out;
}

}  // namespace

std::optional<Problem> wrongPlotName(const std::filesystem::path& path) {
  std::string ending = path.extension().string();
  std::ranges::transform(ending, ending.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  if (ending == ".svg") return {};
  return Problem{Code::BadChoice, "The drawing is an SVG file, and \"" + path.string() + "\" is not named like one. Let the name after --plot end in .svg"};
}

Result<SeriesPlot> seriesPlotOf(const Series& series, const std::optional<TintFile>& tints, const Advice& advice) {
  const auto ground = nextGround(series);
  if (!advice.next || !series.target || !ground)
    return fail(Code::SeriesUnusable, "nothing is known of its tints yet, so there is nothing to draw; spray a panel first, give known tints, or leave --plot out");
  const auto base = groundwork(series, tints);
  if (!base) return std::unexpected(base.error());
  const Predictor predictor(base->fit, base->panels, base->tints_known ? ground : std::nullopt);
  const Aim aim(predictor, *series.target, *ground, tintPart(series.carrier_per_tint));
  const MixChoice& choice = advice.next->choice;

  SeriesPlot plot;
  plot.sentence = drawable(advice.sentence);
  plot.strong = drawable(series.strong_name);
  plot.coats = coatsWords(choice.coats);
  plot.target = *series.target;
  for (int i = 0; i <= kCurveSteps; ++i) {
    const double share = static_cast<double>(i) / kCurveSteps;
    const std::vector<double> shares{share, 1 - share};
    const MixChoice at = aim.withRangeOf(aim.ofShares(shares, choice.coats), shares);
    plot.curve.push_back({share, at.de00, at.low, at.high});
  }
  plot.next = {"next: " + partsWords(choice.parts) + ", " + coatsWords(choice.coats), {choice.share(), choice.de00, choice.low, choice.high}, advice.share_low, advice.share_high, choice.lab};

  const double axis = series.sigma * series.sigma / 3;
  bool other_ground = false, cleared = false;
  const std::vector<PanelReading> as_given = panelReadings(series);
  for (std::size_t i = 0; i < series.panels.size(); ++i) {
    const auto used = std::ranges::find(base->from, i);
    const bool left_out = used == base->from.end();
    if (left_out && std::ranges::any_of(base->series.panels, [&](const SeriesPanel& p) { return sameReading(p, series.panels[i]); })) continue;  // a copy
    const auto place = static_cast<std::size_t>(used - base->from.begin());
    const SeriesPanel& panel = left_out ? series.panels[i] : base->series.panels[place];
    SeriesPlotPanel drawn = plotPanel(panel, *series.target, axis + (left_out ? 0 : base->panels[place].extra));
    if (panel.lab != series.panels[i].lab) {
      drawn.label += ", cleared by the forecast";
      cleared = true;
    }
    drawn.left_out = left_out;
    drawn.place = i;
    const PanelReading& film = left_out ? as_given[i] : base->panels[place];
    drawn.predicted = predictor.labAt({film.shares, film.tint_part, film.coats}, film.ground);
    const bool elsewhere = deltaE2000(labOfSharpened(film.ground), *ground) > kOtherStrip || std::abs(film.tint_part - aim.tintPartUsed()) > 1e-9;
    other_ground = other_ground || elsewhere;
    drawn.at_these_coats = !elsewhere && std::abs(panel.coats - choice.coats) < kSameCoats;
    plot.panels.push_back(std::move(drawn));
  }
  plot.small_print.push_back(fmt::format("The range of a panel is that of its reading (σ {:g} ΔE00); that of the line and of the next mix is that of a panel still to be sprayed, whose film varies by {:.0f} %. "
                                         "Predicted is what the model gives after it was fitted to these very panels.", series.sigma, 100 * filmSd(advice.fit.film_sd, choice.coats)));
  if (other_ground) plot.small_print.emplace_back("A panel over another ground, or with another carrier, is drawn like one of other coats: it need not lie on the line.");
  if (cleared) plot.small_print.emplace_back("\"Cleared by the forecast\": the panel has no clear yet; its colour under clear was worked out from half-cleared panels.");
  return plot;
}

GroundsPlot groundsPlotOf(const GroundsReport& report) {
  GroundsPlot plot;
  plot.title = fmt::format("{} {}, {}", report.next_parts.empty() ? "The accepted mix" : "The mix advised next,", partsWords(report.strong, report.weak), coatsWords(report.coats));
  for (const GroundLook& look : report.looks) {
    GroundsPlotRow row{drawable(look.name), {}, {}, look.ground, look.lab};
    const std::string lab = fmt::format("Lab {:.1f}, {:.1f}, {:.1f}", look.lab.L + 0.0, look.lab.a + 0.0, look.lab.b + 0.0);
    if (plot.rows.empty()) row.words = fmt::format("The others are held against this one. {}, known within about ΔE00 {:.1f}.", lab, 2 * look.sd);
    else if (look.words.empty() || look.words == "much the same") row.words = fmt::format("Much the same, ΔE00 {:.1f}. {}, known within about ΔE00 {:.1f}.", look.de00, lab, 2 * look.sd);
    else row.words = fmt::format("It looks {}, ΔE00 {:.1f}. {}, known within about ΔE00 {:.1f}.", look.words, look.de00, lab, 2 * look.sd);
    if (!look.lean.empty()) {
      row.warning = drawable(look.lean) + ": do not stop or judge there.";
      row.warning[0] = static_cast<char>(row.warning[0] >= 'a' && row.warning[0] <= 'z' ? row.warning[0] - 'a' + 'A' : row.warning[0]);
    }
    plot.rows.push_back(std::move(row));
  }
  plot.small_print.emplace_back("All colours are the model's, not measured; within: two standard deviations, the film's spread included.");
  return plot;
}

}  // namespace huewright
