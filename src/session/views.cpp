#include "session/views.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace huewright {
namespace {

/// One second look. In: the request as for the first photo.
Result<ViewReport> look(const ViewRequest& view, const Shot& first, const JudgeRequest& request, const std::filesystem::path& calib, const Standards& standards) {
  JudgeRequest again = request;
  again.photo = view.photo;
  again.swapped.reset();
  again.repeats.clear();
  again.plain_sheet.reset();  // it shows the first photo's light
  const Regions& r = view.regions;
  const bool told = !r.panels.empty() || r.card || !r.greys.empty() || r.black;
  if (told) {
    again.regions = r;
    if (r.panels.size() != first.reading.panels.size() && request.steps.empty())
      return fail(Code::ViewUnusable, fmt::format("{} panels are marked in it and {} in the first photo", r.panels.size(), first.reading.panels.size()));
    if (!r.card && !request.card_lab) return fail(Code::ViewUnusable, "the card is not marked in it");
  }
  if (again.chart_use == ChartUse::Here) again.chart_use = ChartUse::Auto;
  const std::string name = view.photo.filename().string();
  auto shot = readShot(view.photo, again, calib, [&](Photo& photo) -> Result<SetUp> {
    if (!told && !usesMat(again) && photo.size() != first.facts.size)
      return fail(Code::ViewUnusable, fmt::format("the places marked in the first photo do not hold in {}, which is {} by {} pixels instead of {} by {}", name,
                                                  photo.size().width, photo.size().height, first.facts.size.width, first.facts.size.height));
    auto laid = setUp(photo, again, calib);
    if (laid && request.steps.empty() && laid->scene.regions.panels.size() != first.reading.panels.size())
      return fail(Code::ViewUnusable, fmt::format("{} panels lie on the mat in it and {} in the first photo", laid->scene.regions.panels.size(), first.reading.panels.size()));
    return laid;
  });
  if (!shot) return std::unexpected(shot.error());
  ViewReport report;
  report.file = view.photo;
  report.regions = shot->set_up.scene.regions;
  report.reading = std::move(shot->reading);
  report.trust = std::move(shot->trust);
  const CompareOptions options{request.tolerance.value_or(standards.situations.front().tolerance), request.card_kind};
  for (std::size_t i = 0; i < report.reading.panels.size(); ++i)
    report.verdicts.push_back(compare(report.reading, i, shot->set_up.scene.nameOfPanel(i), standards, options));
  return report;
}

}  // namespace

bool looksMetallic(const Reading& reading, std::size_t panel) {
  // Simulated metallic paints show 0.09 to 0.14 beside noise, plain and pearly ones up to 0.08 with their mottle. A darker surface shows more noise than the grey.
  constexpr double kSparkle = 0.085, kMoreNoise = 1.5;
  const auto sparkles = [&](const ColourReading& r) {
    const double noise = kMoreNoise * reading.grey_grain * std::max(1.0, kAssumedGreyY / std::max(1e-3, r.xyz.Y));
    return r.grain * r.grain > noise * noise + kSparkle * kSparkle;
  };
  return sparkles(reading.panels[panel]) || (reading.card_in_photo && sparkles(reading.card));
}

Result<void> lookAgain(const Shot& first, const JudgeRequest& request, const std::filesystem::path& calib, const Standards& standards, std::stop_token stop,
                       JudgeReport& report) {
  const double kind = cardKindSd(standards, request.card_kind);
  const std::string name = first.set_up.scene.nameOfPanel(report.main);
  const auto take = [&](const std::optional<ViewRequest>& view, std::optional<ViewReport>& out, auto&& sentenceOf) -> Result<void> {
    if (!view) return {};
    if (stop.stop_requested()) return fail(Code::Stopped);
    auto looked = look(*view, first, request, calib, standards);
    if (!looked) return std::unexpected(looked.error());
    out = std::move(*looked);
    const Verdict &before = report.verdicts[report.main], &after = out->verdicts[report.main];
    out->comparison = compareViews(before, after, kind);
    out->sentence = sentenceOf(out->comparison, before, name);
    return {};
  };
  if (auto also = take(request.also, report.also, lightsSentence); !also) return also;
  if (auto flop = take(request.flop, report.flop, flopSentence); !flop) return flop;
  if (!request.flop && looksMetallic(report.reading, report.main)) report.cautions.push_back({CautionCode::OneAngle, name});
  return {};
}

}  // namespace huewright
