#include "session/session.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <new>

#include "judge/pair.hpp"
#include "photo/write.hpp"
#include "session/chart.hpp"
#include "session/series.hpp"
#include "session/set_up.hpp"

namespace huewright {
namespace {

constexpr double kLeastGreyY = 0.02;  // a darker patch is a black one; a slipped digit would shrink every difference

std::optional<Problem> wrongSteps(const JudgeRequest& r) {
  if (r.steps.empty()) return {};
  std::string text;
  for (const double n : r.steps) text += fmt::format("{}{:g}", text.empty() ? "" : ",", n);
  const bool good = std::ranges::all_of(r.steps, [](double n) { return n >= 0 && n <= 100; });
  const bool rising = std::ranges::adjacent_find(r.steps, std::ranges::greater_equal{}) == r.steps.end();
  const bool falling = std::ranges::adjacent_find(r.steps, std::ranges::less_equal{}) == r.steps.end();
  constexpr std::size_t kMost = 12;
  if (!good || (!rising && !falling) || r.steps.size() < 2 || r.steps.size() > kMost) return Problem{Code::BadSteps, text};
  if (r.coats) return Problem{Code::BadChoice, "Give --coats for a plain panel or --steps for a stepped one, not both"};
  if (r.regions.panels.size() > 1) return Problem{Code::BadChoice, "--steps is for one stepped panel. Judge several one by one"};
  if (r.mixes.size() > 1) return Problem{Code::BadChoice, "A stepped panel has one mix. Give --mix once"};
  return {};
}

std::optional<Problem> wrongSeries(const JudgeRequest& r) {
  if (!r.series) return {};
  if (r.mixes.empty() || (!r.coats && r.steps.empty()) || !r.carrier)
    return Problem{Code::BadChoice, "A series needs to know --mix, --carrier, and --coats or --steps"};
  std::error_code ignored;
  if (std::filesystem::exists(*r.series, ignored)) return Problem{Code::FileThere, r.series->string()};
  return {};
}

std::optional<Problem> wrong(const JudgeRequest& r) {
  if (r.photo.empty()) return Problem{Code::NoPhoto, {}};
  if (r.regions.panels.empty() && !usesMat(r)) return Problem{Code::NoPanel, {}};
  if (r.regions.panels.size() > static_cast<std::size_t>(r.limits.panels))
    return Problem{Code::TooManyPanels, std::to_string(r.regions.panels.size())};
  if (!r.regions.card && !r.card_lab && !usesMat(r)) return Problem{Code::NoCard, {}};
  if (r.regions.card && r.card_lab) return Problem{Code::TwoCards, {}};
  if (r.grey_y && !(*r.grey_y >= kLeastGreyY && *r.grey_y <= 1))
    return Problem{Code::BadNumber, "The grey patch's lightness (--grey-y) must lie from 0.02 to 1, as a share of white"};
  if (r.tolerance && !(*r.tolerance > 0 && *r.tolerance <= 100))
    return Problem{Code::BadNumber, "The tolerance must be a colour difference above 0 and at most 100"};
  if (r.coats && !(*r.coats > 0 && *r.coats <= 100)) return Problem{Code::BadNumber, "The coats must be a number above 0 and at most 100"};
  if (r.card_lab && !(r.card_lab->L >= 0 && r.card_lab->L <= 100 && std::abs(r.card_lab->a) <= 200 && std::abs(r.card_lab->b) <= 200))
    return Problem{Code::BadNumber, "The card's Lab must have L from 0 to 100, and a and b from -200 to 200"};
  for (const Mix& mix : r.mixes)
    if (!(mix.strong >= 0 && mix.weak >= 0 && mix.strong + mix.weak > 0 && std::isfinite(mix.strong + mix.weak)))
      return Problem{Code::BadMix, std::to_string(mix.strong) + ":" + std::to_string(mix.weak)};
  if (r.mixes.size() > 1 && !usesMat(r) && r.mixes.size() != r.regions.panels.size())
    return Problem{Code::BadChoice, "Give one mix for all panels, or one for each panel in the same order"};
  if (auto problem = wrongSteps(r)) return problem;
  if (r.swapped) {
    if (r.regions.panels.size() > 1 || !r.steps.empty()) return Problem{Code::BadChoice, "--swapped is for one panel. Judge several one by one"};
    if (r.card_lab) return Problem{Code::BadChoice, "With --swapped the card must lie in the photo, beside the panel: leave --card-lab out"};
  }
  if (r.carrier && !(*r.carrier >= 0 && *r.carrier <= 1000))
    return Problem{Code::BadNumber, "The carrier must be a number of volumes to one of tint, from 0 to 1000"};
  return wrongSeries(r);
}

Gloss glossOf(CardKind kind) {
  if (kind == CardKind::Same || kind == CardKind::Similar) return Gloss::Yes;
  return kind == CardKind::Printed ? Gloss::No : Gloss::Unsure;
}

/// One reading, of one photo or of two with panel and card changed over.
Result<Reading> read(Photo& photo, const SetUp& first, const JudgeRequest& request, const std::filesystem::path& calib, JudgeReport& report) {
  MeasureOptions options{request.grey_y, request.card_lab};
  options.card_gloss = glossOf(request.card_kind);
  options.by_slopes = !request.swapped;
  if (request.plain_sheet) {
    auto map = sheetLight(*request.plain_sheet, first.scene, photo.size(), request.limits, request.encoding);
    if (!map) return std::unexpected(map.error());
    options.sheet = std::move(*map);
  }
  std::vector<Caution> cautions;
  const auto profile = profileFor(photo, first.preview, request, calib, cautions);
  if (!profile) return std::unexpected(profile.error());
  if (photo.facts().camera_rgb && !photo.facts().builtin && !profile->profile.map) return fail(Code::RawUnknown, request.photo.string());
  report.chart = profile->chart;
  auto reading = measure(photo, first.scene, profile->profile, options);
  if (reading) reading->cautions.insert(reading->cautions.end(), cautions.begin(), cautions.end());
  if (!reading || !request.swapped) return reading;

  auto second = Photo::open(*request.swapped, request.limits, request.encoding);
  if (!second) return std::unexpected(second.error());
  if (second->facts().camera_rgb != photo.facts().camera_rgb) return fail(Code::SwappedUnusable, "one of the two is a raw file and the other is not");
  const auto scene = swappedScene(*second, first, photo.size(), request, calib);
  if (!scene) return std::unexpected(scene.error());
  cautions.clear();
  const auto second_profile = profileFor(*second, scene->preview, request, calib, cautions);
  if (!second_profile) return std::unexpected(second_profile.error());
  if (second_profile->profile.map.has_value() != profile->profile.map.has_value())
    return fail(Code::SwappedUnusable, "a chart can be used in one of the two and not in the other");
  const auto other = measure(*second, scene->scene, second_profile->profile, options);
  if (!other) return std::unexpected(other.error());
  auto pair = averagePair(*reading, *other);
  if (!pair) return std::unexpected(pair.error());
  report.swap = SwapReport{*request.swapped, pair->apart, 0.5 * pair->brightness};
  constexpr double kApart = 1.0, kClearly = 3.0;
  if (pair->other > kApart && pair->other > kClearly * pair->other_sd)
    pair->reading.cautions.push_back({CautionCode::ShotsApart, fmt::format("{:.1f}", pair->other)});
  return std::move(pair->reading);
}

/// Names, verdicts, ranking and advice.
void conclude(JudgeReport& report, const Scene& scene, const JudgeRequest& request, const Standards& standards) {
  const Reading& reading = report.reading;
  const std::size_t panels = reading.panels.size();
  report.cautions = reading.cautions;
  const bool stepped = report.stepped = !request.steps.empty();
  if (request.card_kind == CardKind::Unknown) report.cautions.push_back({CautionCode::CardKindUnknown, {}});
  if (stepped && stepsReversed(reading, request.steps)) report.cautions.push_back({CautionCode::StepsReversed, {}});

  std::vector<Mix> mixes = request.mixes;
  if (mixes.size() == 1) mixes.resize(panels, mixes.front());
  RankWords words;
  words.by_coats = stepped;
  const CompareOptions options{request.tolerance.value_or(standards.situations.front().tolerance), request.card_kind};
  for (std::size_t i = 0; i < panels; ++i) {
    report.verdicts.push_back(compare(reading, i, scene.nameOfPanel(i), standards, options));
    report.coats.push_back(stepped ? std::optional(request.steps[i]) : request.coats);
    const bool bare = report.coats.back() == 0;
    report.mixes.push_back(mixes.empty() || bare ? std::nullopt : std::optional(mixes[i]));
    report.names.push_back(!stepped ? panels == 1 ? "panel" : scene.nameOfPanel(i)
                           : bare   ? "bare ground"
                                    : fmt::format("{:g} {}", request.steps[i], request.steps[i] == 1 ? "coat" : "coats"));
    if (stepped) words.names.push_back(report.names.back());
    if (bare) words.left_out.push_back(i);
  }
  if (panels > 1) report.ranking = rank(reading, report.verdicts, mixes, words);
  if (stepped && !report.ranking.order.empty()) report.main = report.ranking.order.front().panel;
  report.advice = adviseOnePanel(reading, report.main, report.verdicts[report.main], report.mixes[report.main], report.coats[report.main]);
}

}  // namespace

Result<Session> Session::open(const std::filesystem::path& calib) {
  auto standards = readStandards(calib);
  if (!standards) return std::unexpected(standards.error());
  Session session;
  session.standards_ = std::move(*standards);
  session.calib_ = calib;
  return session;
}

Result<JudgeReport> Session::judge(const JudgeRequest& request, std::stop_token stop) const {
  if (auto problem = wrong(request)) return std::unexpected(*problem);
  try {
    auto photo = Photo::open(request.photo, request.limits, request.encoding);
    if (!photo) return std::unexpected(photo.error());
    auto first = setUp(*photo, request, calib_);
    if (!first) return std::unexpected(first.error());
    Scene& scene = first->scene;
    if (request.steps.empty() && request.mixes.size() > 1 && request.mixes.size() != scene.regions.panels.size())
      return fail(Code::MatMixes, std::to_string(request.mixes.size()) + " mixes were given, and " + std::to_string(scene.regions.panels.size()) +
                                      " panels lie on the mat");
    if (request.swapped && scene.regions.panels.size() != 1)
      return fail(Code::SwappedUnusable, std::to_string(scene.regions.panels.size()) + " panels lie on the mat in the first photo, where one should");
    if (!request.steps.empty())
      if (const auto split = splitSteps(*photo, request.steps, scene); !split) return std::unexpected(split.error());
    if (stop.stop_requested()) return fail(Code::Stopped);

    JudgeReport report;
    auto reading = read(*photo, *first, request, calib_, report);
    if (!reading) return std::unexpected(reading.error());
    if (stop.stop_requested()) return fail(Code::Stopped);
    report.photo = photo->facts();
    report.regions = scene.regions;
    report.reading = std::move(*reading);
    conclude(report, scene, request, standards_);
    if (request.series)
      if (const auto written = writeWhole(*request.series, seriesJson(report, *request.carrier)); !written) return std::unexpected(written.error());
    return report;
  } catch (const std::bad_alloc&) {
    return fail(Code::OutOfMemory, "this picture");
  }
}

}  // namespace huewright
