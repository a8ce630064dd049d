#include "session/shot.hpp"

#include <cmath>
#include <fmt/format.h>

#include "judge/pair.hpp"
#include "judge/repeats.hpp"
#include "session/chart.hpp"
#include "session/kept_grey.hpp"

namespace huewright {
namespace {

Gloss glossOf(CardKind kind) {
  if (kind == CardKind::Same || kind == CardKind::Similar) return Gloss::Yes;
  return kind == CardKind::Printed ? Gloss::No : Gloss::Unsure;
}

}  // namespace

Result<Shot> readShot(const std::filesystem::path& file, const JudgeRequest& request, const std::filesystem::path& calib, const Lay& lay) {
  auto photo = Photo::open(file, request.limits, request.encoding);
  if (!photo) return std::unexpected(photo.error());
  return readShot(std::move(*photo), request, calib, lay);
}

Result<Shot> readShot(Photo photo, const JudgeRequest& request, const std::filesystem::path& calib, const Lay& lay, const ShotProfile* known) {
  auto laid = lay ? lay(photo) : setUp(photo, request, calib);
  if (!laid) return std::unexpected(laid.error());
  Shot shot;
  shot.set_up = std::move(*laid);
  Scene& scene = shot.set_up.scene;
  const bool was_linear = photo.facts().linear;
  // Charts and tags are looked for on one preview.
  if (!known && !shot.set_up.preview && request.chart_use != ChartUse::None) {
    auto preview = photo.preview(kPreviewSide);
    if (!preview) return std::unexpected(preview.error());
    shot.set_up.preview = std::move(*preview);
  }
  if (known) {
    shot.by = *known;
  } else {
    auto found = profileFor(photo, shot.set_up.preview, request, calib, shot.by.cautions);
    if (!found) return std::unexpected(found.error());
    shot.by.profile = std::move(*found);
  }
  const PhotoProfile& profile = shot.by.profile;
  const bool read_anew = photo.facts().linear != was_linear;  // as linear, which the chart or the profile tells
  if (!request.steps.empty() && !shot.set_up.split)
    if (const auto split = splitSteps(photo, request.steps, scene); !split) return std::unexpected(split.error());
  MeasureOptions options{request.grey_y, request.card_lab};
  options.card_gloss = glossOf(request.card_kind);
  options.by_slopes = !request.swapped;
  if (request.grey && !request.grey_y && !scene.regions.greys.empty()) {
    const auto kept = readKeptGrey(*request.grey);
    if (!kept) return std::unexpected(kept.error());
    options.grey = kept->colour;
  }
  options.course = profile.course;
  if (request.plain_sheet) {
    auto map = sheetLight(*request.plain_sheet, scene, photo.size(), request.limits, read_anew ? Encoding::Linear : request.encoding);
    if (!map) return std::unexpected(map.error());
    options.sheet = std::move(*map);
  }
  shot.profiled = profile.profile.map.has_value();
  if (photo.facts().camera_rgb && !photo.facts().builtin && !shot.profiled) return fail(Code::RawUnknown, photo.facts().path.string());
  shot.chart = profile.chart;
  auto reading = measure(photo, scene, profile.profile, options);
  if (!reading) return std::unexpected(reading.error());
  reading->cautions.insert(reading->cautions.end(), shot.by.cautions.begin(), shot.by.cautions.end());
  shot.reading = std::move(*reading);
  shot.facts = photo.facts();
  if (read_anew) shot.facts.encoding = "linear (as the chart shows)";
  shot.trust = trustOf(shot.facts, photo.traces(), shot.reading.cautions);
  widenRendering(shot.reading, renderingFactor(shot.trust));
  return shot;
}

Result<Reading> withSwapped(const Shot& first, const JudgeRequest& request, const std::filesystem::path& calib, JudgeReport& report) {
  if (first.set_up.scene.regions.panels.size() != 1)
    return fail(Code::SwappedUnusable, fmt::format("{} panels lie on the mat in the first photo, where one should", first.set_up.scene.regions.panels.size()));
  const auto second = readShot(*request.swapped, request, calib, [&](Photo& photo) -> Result<SetUp> {
    if (photo.facts().camera_rgb != first.facts.camera_rgb) return fail(Code::SwappedUnusable, "one of the two is a raw file and the other is not");
    return swappedScene(photo, first.set_up, first.facts.size, request, calib);
  });
  if (!second) return std::unexpected(second.error());
  if (second->profiled != first.profiled) return fail(Code::SwappedUnusable, "a chart can be used in one of the two and not in the other");
  report.trust = lesser(first.trust, second->trust);
  auto pair = averagePair(first.reading, second->reading);
  if (!pair) return std::unexpected(pair.error());
  report.swap = SwapReport{*request.swapped, pair->apart, 0.5 * pair->brightness};
  constexpr double kApart = 1.0, kClearly = 3.0;
  if (pair->other > kApart && pair->other > kClearly * pair->other_sd)
    pair->reading.cautions.push_back({CautionCode::ShotsApart, fmt::format("{:.1f}", pair->other)});
  return std::move(pair->reading);
}

Result<Reading> withRepeats(const Shot& first, const JudgeRequest& request, const std::filesystem::path& calib, std::stop_token stop, JudgeReport& report) {
  std::vector<Reading> readings{first.reading};
  for (const std::filesystem::path& file : request.repeats) {
    if (stop.stop_requested()) return fail(Code::Stopped);
    const std::string name = file.filename().string();
    auto shot = readShot(file, request, calib, [&](Photo& photo) -> Result<SetUp> {
      if (photo.facts().camera_rgb != first.facts.camera_rgb) return fail(Code::RepeatsUnusable, "some are raw files and " + name + " is not, or the other way round");
      if (!usesMat(request) && photo.size() != first.facts.size)
        return fail(Code::RepeatsUnusable, fmt::format("places were given as numbers, and {} is {} by {} pixels where the first is {} by {}", name, photo.size().width,
                                                       photo.size().height, first.facts.size.width, first.facts.size.height));
      auto laid = setUp(photo, request, calib);
      if (laid && laid->scene.regions.panels.size() != (request.steps.empty() ? first.set_up.scene.regions.panels.size() : 1))
        return fail(Code::RepeatsUnusable, name + " does not show as many panels on the mat as the first");
      return laid;
    });
    if (!shot) return std::unexpected(shot.error());
    if (shot->profiled != first.profiled) return fail(Code::RepeatsUnusable, "a chart can be used in some of them and not in " + name);
    report.trust = lesser(report.trust, shot->trust);
    readings.push_back(std::move(shot->reading));
  }
  auto repeats = combineRepeats(readings);
  if (!repeats) return std::unexpected(repeats.error());
  const auto nameOf = [&](std::size_t i) { return i == 0 ? request.photo : request.repeats[i - 1]; };
  report.repeats = RepeatsReport{readings.size(), repeats->used, {}, repeats->left_out_by, repeats->scatter};
  if (repeats->left_out) {
    report.repeats->left_out = nameOf(*repeats->left_out);
    repeats->reading.cautions.push_back({CautionCode::PhotoLeftOut, fmt::format("{} differs from the other photos by ΔE00 {:.1f}",
                                                                                report.repeats->left_out->filename().string(), repeats->left_out_by)});
  }
  if (repeats->disagree) repeats->reading.cautions.push_back({CautionCode::PhotosDisagree, fmt::format("{:.1f}", repeats->scatter)});
  return std::move(repeats->reading);
}

}  // namespace huewright
