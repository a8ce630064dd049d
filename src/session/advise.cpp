#include "session/advise.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "mix/mix_words.hpp"
#include "photo/write.hpp"
#include "session/plots.hpp"
#include "session/text_file.hpp"

namespace huewright {
namespace {

Result<Series> openSeries(const std::filesystem::path& path) {
  const auto text = readTextFile(path, Code::SeriesUnusable);
  if (!text) return std::unexpected(text.error());
  return readSeries(*text);
}

/// What the reader of a file sees to: a series that is still being filled in may have panels without any ground.
std::optional<Problem> withoutGround(const Series& series) {
  if (series.ground) return {};
  for (std::size_t i = 0; i < series.panels.size(); ++i)
    if (!series.panels[i].ground) return Problem{Code::SeriesUnusable, panelName(series, i) + " has no ground; give the colour of the bare ground, of the series or of each panel"};
  return {};
}

std::string shelfSentence(const AdviseReport& report) {
  if (report.shelf_mixes.empty()) return "No mix of these tints could be found.";
  const ShelfMix& best = report.shelf_mixes.front();
  std::string names;
  for (std::size_t i = 0; i < best.tints.size(); ++i)
    names += fmt::format("{}{} of \"{}\"", i == 0 ? "" : i + 1 == best.tints.size() ? " and " : ", ", best.choice.parts[i] == 1 ? "1 part" : fmt::format("{} parts", best.choice.parts[i]),
                         report.shelf_names[best.tints[i]]);
  return fmt::format("Nearest off the shelf: {}, {}: it should come within ΔE00 {}.", names, coatsWords(best.choice.coats), distanceWords(best.choice));
}

Result<AdviseReport> adviseFromShelf(AdviseReport report, const TintFile& shelf) {
  if (!report.series.target) return fail(Code::SeriesUnusable, "it has no target; give the wanted colour as target");
  const auto ground = nextGround(report.series);
  if (!ground) return fail(Code::SeriesUnusable, "it has no ground; give the colour of the bare ground as ground");
  const ShelfWish wish{.target = *report.series.target, .ground = *ground, .carrier_per_tint = report.series.carrier_per_tint, .limits = report.series.limits};
  auto mixes = fromShelf(shelf, wish);
  if (!mixes) return std::unexpected(mixes.error());
  report.shelf_mixes = std::move(*mixes);
  for (const KnownTint& tint : shelf.tints) report.shelf_names.push_back(tint.name);
  report.advice.sentence = shelfSentence(report);
  return report;
}

std::optional<Problem> keepTints(const AdviseRequest& request, const AdviseReport& report) {
  if (report.advice.panels == 0) return Problem{Code::BadChoice, "There is nothing to keep with --save-tints: the series has no panel yet"};
  const std::string strong = report.series.strong_name.empty() ? "strong" : report.series.strong_name;
  const std::string weak = report.series.weak_name.empty() ? "weak" : report.series.weak_name;
  const auto written = writeWhole(*request.save_tints, tintFileJson(tintFileOf(report.advice.fit, {strong, weak}, nextGround(report.series))));
  if (!written) return written.error();
  return {};
}

}  // namespace

Result<std::optional<TintFile>> openTints(const std::optional<std::filesystem::path>& path) {
  if (!path) return std::nullopt;
  const auto text = readTextFile(*path, Code::TintFileUnusable);
  if (!text) return std::unexpected(text.error());
  auto file = readTintFile(*text);
  if (!file) return std::unexpected(file.error());
  return std::optional(std::move(*file));
}

Result<AdviseReport> adviseOn(Series series, const std::optional<TintFile>& tints, std::optional<double> part_coats) {
  if (auto problem = withoutGround(series)) return std::unexpected(std::move(*problem));
  AdviseReport report;
  report.series = std::move(series);
  auto advice = advise(report.series, {.tints = tints, .part_coats = part_coats});
  if (!advice) return std::unexpected(advice.error());
  report.advice = std::move(*advice);
  return report;
}

Result<AdviseReport> adviseOn(const AdviseRequest& request) {
  if (request.plot)
    if (const auto problem = wrongPlotName(*request.plot)) return std::unexpected(*problem);
  if (request.plot && request.shelf) return fail(Code::BadChoice, "A shelf is not drawn: give --plot without --shelf");
  std::error_code ignored;
  if (request.save_tints && std::filesystem::exists(*request.save_tints, ignored)) return fail(Code::FileThere, request.save_tints->string());
  auto series = openSeries(request.series);
  if (!series) return std::unexpected(series.error());
  if (request.shelf) {
    const auto shelf = openTints(request.shelf);
    if (!shelf) return std::unexpected(shelf.error());
    AdviseReport report;
    report.series = std::move(*series);
    return adviseFromShelf(std::move(report), **shelf);
  }
  const auto tints = openTints(request.tints);
  if (!tints) return std::unexpected(tints.error());
  auto report = adviseOn(std::move(*series), *tints, request.part_coats);
  if (!report) return report;
  Result<std::string> drawing;
  if (request.plot) {
    const auto plot = seriesPlotOf(report->series, *tints, report->advice);
    if (!plot) return std::unexpected(plot.error());
    drawing = seriesPlotSvg(*plot);
    if (!drawing) return std::unexpected(drawing.error());
  }
  if (request.plot)
    if (const auto written = writeWhole(*request.plot, *drawing); !written) return std::unexpected(written.error());
  if (request.save_tints)
    if (const auto problem = keepTints(request, *report)) return std::unexpected(*problem);
  return report;
}

Result<GroundsReport> groundsOf(const Series& series, const std::optional<TintFile>& tints) {
  if (auto problem = withoutGround(series)) return std::unexpected(std::move(*problem));
  if (series.grounds.empty()) return fail(Code::SeriesUnusable, "it names no other ground; give them as grounds, each with name and lab");
  GroundsReport report;
  double carrier = series.carrier_per_tint;
  if (series.accepted) {
    report.strong = series.accepted->strong;
    report.weak = series.accepted->weak;
    report.coats = series.accepted->coats;
    carrier = series.accepted->carrier_per_tint.value_or(carrier);
  } else {
    const auto advice = advise(series, {.tints = tints, .part_coats = {}});
    if (!advice) return std::unexpected(advice.error());
    if (!advice->next) return fail(Code::SeriesUnusable, "nothing is known of its tints yet; spray a panel first, or give known tints");
    report.next_parts = advice->next->choice.parts;
    report.strong = report.next_parts[0];
    report.weak = report.next_parts[1];
    report.coats = advice->next->choice.coats;
  }
  auto base = groundwork(series, tints);
  if (!base) return std::unexpected(base.error());
  if (base->panels.empty() && !base->tints_known) return fail(Code::SeriesUnusable, "nothing is known of its tints yet; spray a panel first, or give known tints");
  std::vector<NamedGround> grounds;
  if (const auto own = nextGround(series)) grounds.push_back({series.ground && !series.ground->name.empty() ? series.ground->name : "the series' ground", *own});
  for (const NamedGround& ground : series.grounds)
    if (grounds.empty() || ground.lab != grounds.front().lab) grounds.push_back(ground);
  const Predictor predictor(base->fit, base->panels, base->tints_known ? nextGround(series) : std::nullopt);
  report.looks = overGrounds(predictor, report.strong / (report.strong + report.weak), tintPart(carrier), report.coats, grounds);
  report.cautions = base->cautions;
  for (const GroundLook& look : report.looks)
    if (!look.lean.empty()) report.cautions.push_back({CautionCode::LeanAtFewCoats, fmt::format("Over the ground \"{}\", {}; do not stop or judge there", look.name, look.lean)});
  return report;
}

Result<GroundsReport> groundsOf(const GroundsRequest& request) {
  if (request.plot)
    if (const auto problem = wrongPlotName(*request.plot)) return std::unexpected(*problem);
  const auto series = openSeries(request.series);
  if (!series) return std::unexpected(series.error());
  const auto tints = openTints(request.tints);
  if (!tints) return std::unexpected(tints.error());
  auto report = groundsOf(*series, *tints);
  if (report && request.plot) {
    const auto drawing = groundsPlotSvg(groundsPlotOf(*report));
    if (!drawing) return std::unexpected(drawing.error());
    if (const auto written = writeWhole(*request.plot, *drawing); !written) return std::unexpected(written.error());
  }
  return report;
}

}  // namespace huewright
