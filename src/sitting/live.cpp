#include <algorithm>
#include <fmt/format.h>

#include "base/text.hpp"
#include "sitting/camera_list.hpp"
#include "sitting/inside.hpp"
#include "sitting/memory.hpp"

namespace huewright {
namespace {

/// A film is found again from any folder; a camera's number is none.
std::string wholeSource(const std::string& source) {
  if (std::ranges::all_of(source, isDigit)) return source;
  std::error_code ignored;
  const fs::path path = fs::absolute(source, ignored).lexically_normal();
  return ignored ? source : path.string();
}

/// What a wish follows from.
std::string keyOf(const LiveWish& wish, const Plan& plan) {
  std::string key = choicesKey(plan) + (wish.by_marks ? " marks" : "");
  if (!wish.by_marks || !wish.marks) return key;
  key += fmt::format(" {}x{}", wish.marks->size.width, wish.marks->size.height);
  const auto add = [&](const char* what, const Quad& quad) {
    key += what;
    for (const Point& p : quad.corners) key += fmt::format(" {},{}", p.x, p.y);
  };
  const Regions& r = wish.marks->regions;
  for (const Quad& panel : r.panels) add(" panel", panel);
  for (const Quad& grey : r.greys) add(" grey", grey);
  if (r.card) add(" card", *r.card);
  if (r.black) add(" black", *r.black);
  return key;
}

}  // namespace

LiveWish Sitting::Inside::liveWish() const {
  LiveWish wish;
  wish.judge = choices();
  wish.judge.photo = state.live.source;
  wish.by_marks = state.live.by_marks;
  const PlannedPhoto* photo = photoOf(state.plan, state.shown);
  const auto shown = std::ranges::find(state.photos, state.shown, &PhotoShown::id);
  if (photo && photo->by_hand && shown != state.photos.end()) wish.marks = LiveMarks{*photo->by_hand, shown->size};
  return wish;
}

void Sitting::Inside::startCamera(const act::StartCamera& wish) {
  if (wish.source.empty()) return say("Say which camera first, or choose a film.", true);
  state.live.source = wholeSource(wish.source);
  state.live.by_marks = wish.by_marks;
  state.live.now = {};
  state.live.running = true;
  const LiveWish all = liveWish();
  live_key = keyOf(all, state.plan);
  live = std::make_unique<LiveRun>(session, all, devices.camera, wake, std::move(live));
  keep();
}

void Sitting::Inside::stopCamera() {
  if (live) live->stop();
  state.live.running = false;
  state.live.now.away = false;
  state.live.now.state_words.clear();
}

void Sitting::Inside::takeStill() {
  const LiveNow& now = state.live.now;
  if (!now.frame) return say("There is no picture yet: start the camera first.", true);
  if (state.live.stills.empty()) return say("Choose a folder for the stills first.", true);
  std::optional<Regions> marks;
  if (now.by_marks && !now.regions.panels.empty()) marks = now.regions;
  quick.post(fmt::format("still {}", ++opens), "Taking a still", [this, frame = now.frame, marks, folder = state.live.stills](const Progress&) -> Finish {
    std::error_code ignored;  // writing says what is wrong
    fs::create_directories(folder, ignored);
    return [this, marks, still = huewright::takeStill(*frame, folder)] {
      if (!still) return say(still.error());
      say("The still is " + still->string() + ", and is judged now.");
      open({{*still}, PhotoRole::First, true, marks});
    };
  });
}

void Sitting::Inside::judgeLive() {
  if (state.live.running) {
    const LiveWish wish = liveWish();
    if (std::string key = keyOf(wish, state.plan); key != live_key) live_key = std::move(key), live->judgeBy(wish);
  }
  judgeArrivals();
}

bool Sitting::Inside::pollLive() {
  if (!live) return false;
  auto now = live->take();
  if (!now) return false;
  const bool over = now->over;
  if (state.live.running) state.live.now = std::move(*now);
  if (over) {
    state.live.running = false;
    live.reset();
    state.live.cameras = camerasIn(devices.devices);
  }
  return true;
}

}  // namespace huewright
