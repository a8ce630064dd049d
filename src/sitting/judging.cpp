#include "sitting/inside.hpp"

#include "session/user_data.hpp"
#include "sitting/memory.hpp"
#include "sitting/strips.hpp"
#include "sitting/window_words.hpp"
#include "sitting/words.hpp"

namespace huewright {
namespace {

/// The grey that this person keeps, where there is one.
std::optional<fs::path> keptGrey() {
  const auto path = keptGreyPath();
  std::error_code ignored;
  if (path && fs::exists(*path, ignored)) return *path;
  return {};
}

}  // namespace

JudgeRequest Sitting::Inside::choices() const {
  JudgeRequest r;
  const Choices& c = state.plan.choices;
  r.card_lab = c.card_lab;
  r.grey_y = c.grey_y;
  r.encoding = c.encoding;
  r.mixes = c.mixes;
  if (c.steps.empty()) r.coats = c.coats;
  r.steps = c.steps;
  r.carrier = c.carrier;
  r.chart_use = c.use_chart ? ChartUse::Auto : ChartUse::None;
  r.profile = c.profile;
  r.card_kind = c.card_kind;
  r.tolerance = c.tolerance;
  if (c.kept_grey && !c.grey_y) r.grey = keptGrey();
  return r;
}

std::optional<JudgeRequest> Sitting::Inside::request() const {
  const Plan& plan = state.plan;
  const PlannedPhoto* first = firstPhoto(plan);
  if (!first) return {};
  JudgeRequest r = choices();
  r.photo = first->file;
  if (first->by_hand) r.regions = *first->by_hand;
  for (const PlannedPhoto& photo : plan.photos) {
    const ViewRequest view{photo.file, photo.by_hand.value_or(Regions{})};
    switch (photo.role) {
      case PhotoRole::First: break;
      case PhotoRole::Again: r.repeats.push_back(photo.file); break;
      case PhotoRole::ChangedOver: r.swapped = photo.file; break;
      case PhotoRole::OtherLight: r.also = view; break;
      case PhotoRole::Tilted: r.flop = view; break;
    }
  }
  return r;
}

void Sitting::Inside::judge() {
  judged_key = judgeKey(state.plan);
  report.reset();
  state.map.reset();
  state.marks.reset();
  state.kept_grey = keptGrey().has_value();
  const PlannedPhoto* first = firstPhoto(state.plan);
  if (!first || first->id != judged_photo) state.judged.reset();  // a verdict on another panel
  judged_photo = first ? first->id : 0;
  const auto wish = request();
  if (!wish) {
    slow.cancel("judge");
    state.judging = false;
    state.judged.reset();
    state.judge_trouble.clear();
    return;
  }
  state.judging = true;
  slow.post(
      "judge", "Judging the panel",
      [this, wish = *wish](const Progress& progress) -> Finish {
        auto judged = session.judge(wish, progress.stop());
        return [this, judged = std::move(judged)]() mutable { takeVerdict(std::move(judged)); };
      },
      [this](const std::string& why) { takeVerdict(Result<JudgeReport>(fail(Code::Internal, why))); });
}

void Sitting::Inside::takeVerdict(Result<JudgeReport> judged) {
  state.judging = false;
  if (!judged) {
    state.judged.reset();
    state.judge_trouble = judged.error().code == Code::Stopped ? "" : windowWords(judged.error());
    return;
  }
  state.judge_trouble.clear();
  report = std::make_shared<const JudgeReport>(std::move(*judged));
  state.judged = judgedShown(report);
  for (PhotoShown& shown : state.photos) {
    const PlannedPhoto* photo = planned(shown.id);
    const Regions* found = photo->role == PhotoRole::First          ? &report->regions
                           : photo->role == PhotoRole::OtherLight ? report->also ? &report->also->regions : nullptr
                           : photo->role == PhotoRole::Tilted     ? report->flop ? &report->flop->regions : nullptr
                                                                  : nullptr;
    if (photo->role == PhotoRole::First) {
      shown.chart = report->chart;
      shown.mat = report->mat;
    }
    if (!found) continue;
    shown.found = !photo->by_hand;
    if (photo->by_hand) continue;
    shown.regions = *found;
    if (photo->role == PhotoRole::First && report->stepped) shown.regions.panels = {aroundStrips(found->panels)};
  }
  look();
}

}  // namespace huewright
