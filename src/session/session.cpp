#include "session/session.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <new>

#include "photo/write.hpp"
#include "session/conclude.hpp"
#include "session/series.hpp"
#include "session/series_file.hpp"
#include "session/set_up.hpp"
#include "session/shot.hpp"
#include "session/tagged.hpp"
#include "session/views.hpp"

namespace huewright {
namespace {

constexpr std::size_t kMostPhotos = 50;
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
  if (const auto fit = fitForSeries(r); !fit) return fit.error();
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
  if (r.swapped && !r.repeats.empty()) return Problem{Code::BadChoice, "Several photos of one set-up and --swapped do not go together. Give one photo and its swapped one"};
  if (r.repeats.size() >= kMostPhotos) return Problem{Code::BadChoice, fmt::format("At most {} photos of one set-up are combined", kMostPhotos)};
  if (r.carrier && !(*r.carrier >= 0 && *r.carrier <= 1000))
    return Problem{Code::BadNumber, "The carrier must be a number of volumes to one of tint, from 0 to 1000"};
  return wrongSeries(r);
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

Result<void> Session::check(const JudgeRequest& request) {
  if (auto problem = wrong(request)) return std::unexpected(*problem);
  return {};
}

Result<JudgeReport> Session::judge(const JudgeRequest& request, std::stop_token stop) const {
  if (auto problem = wrong(request)) return std::unexpected(*problem);
  try {
    const auto first = readShot(request.photo, request, calib_);
    if (!first) return std::unexpected(first.error());
    const Scene& scene = first->set_up.scene;
    if (request.steps.empty() && request.mixes.size() > 1 && request.mixes.size() != scene.regions.panels.size())
      return fail(Code::MatMixes, std::to_string(request.mixes.size()) + " mixes were given, and " + std::to_string(scene.regions.panels.size()) +
                                      " panels lie on the mat");
    TagSearch tags;
    if (first->set_up.preview) {
      auto found = findTags(*first->set_up.preview);
      if (!found) return std::unexpected(found.error());
      tags = std::move(*found);
    }
    Filed filed = fileTags(tags, scene, request);
    if (const std::string missing = request.series ? untold(filed.panels) : std::string(); !missing.empty()) return fail(Code::SeriesUntold, missing);
    if (stop.stop_requested()) return fail(Code::Stopped);

    JudgeReport report = begunReport(*first);
    Result<Reading> reading = first->reading;
    if (request.swapped) reading = withSwapped(*first, request, calib_, report);
    else if (!request.repeats.empty()) reading = withRepeats(*first, request, calib_, stop, report);
    if (!reading) return std::unexpected(reading.error());
    if (stop.stop_requested()) return fail(Code::Stopped);
    report.reading = std::move(*reading);
    conclude(report, scene, std::move(filed), request, standards_);
    if (const auto looked = lookAgain(*first, request, calib_, standards_, stop, report); !looked) return std::unexpected(looked.error());
    if (request.series) {
      const auto text = seriesJson(report, request.carrier.value_or(carrierOf(report).value_or(0)));
      if (!text) return std::unexpected(text.error());
      if (const auto written = writeWhole(*request.series, *text); !written) return std::unexpected(written.error());
    }
    return report;
  } catch (const std::bad_alloc&) {
    return fail(Code::OutOfMemory, "this picture");
  }
}

}  // namespace huewright
