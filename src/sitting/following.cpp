#include "sitting/inside.hpp"

#include <utility>

#include "session/tagged.hpp"
#include "sitting/memory.hpp"
#include "sitting/window_words.hpp"

namespace huewright {
namespace {

/// What the judging of arrivals follows from.
std::string arrivalsKey(const SittingState& state) { return choicesKey(state.plan) + (state.followed.by_tags ? " by tags" : ""); }

}  // namespace

void Sitting::Inside::followFolder(const fs::path& folder) {
  if (folder.empty()) return say("Choose a folder first.", true);
  if (folder != state.followed.folder) state.arrivals.clear();
  state.followed.running = true;
  state.followed.folder = folder;
  state.followed.came_last = false;
  state.followed.trouble.clear();
  followed_key = arrivalsKey(state);
  followed = std::make_unique<FolderRun>(session, folder, choicesForArrivals(), devices.folder, wake, std::move(followed));
  keep();
}

void Sitting::Inside::unfollow() {
  if (followed) followed->stop();
  state.followed.running = false;
  state.followed.trouble.clear();
}

JudgeRequest Sitting::Inside::choicesForArrivals() const {
  JudgeRequest r = choices();
  if (state.followed.by_tags) r.mixes.clear(), r.coats.reset();  // they were told of the panel that is judged now
  return r;
}

void Sitting::Inside::judgeArrivals() {
  if (!state.followed.running) return;
  if (std::string key = arrivalsKey(state); key != followed_key) followed_key = std::move(key), followed->judgeBy(choicesForArrivals());
}

void Sitting::Inside::fileArrival(Arrival& arrival) {
  const auto judged = std::exchange(arrival.report, nullptr);
  arrival.by_tags = state.followed.by_tags;
  if (!judged || !arrival.by_tags) return;
  if (!toldByTags(*judged) || !untold(*judged).empty()) {
    arrival.sentence += " It is not in the series: lay a tag by each panel that tells its mix, coats and carrier, or open it and keep it yourself.";
    return;
  }
  const auto kept = keepReadings(*judged);
  if (!kept) arrival.sentence += " It is not in the series: " + windowWords(kept.error());
  else if (kept->caution) arrival.sentence += " " + windowWords(*kept->caution);
  else if (kept->readings == 0) arrival.sentence += " It was in the series already.";
  else arrival.sentence += " It is in the series.";
}

bool Sitting::Inside::pollFollowed() {
  if (!followed) return false;
  auto said = followed->take();
  if (!said) return false;
  for (Arrival& arrival : said->arrivals) {
    arrival.id = ++arrived;
    fileArrival(arrival);
    state.followed.came_last = true;
    state.arrivals.insert(state.arrivals.begin(), std::move(arrival));
  }
  if (state.arrivals.size() > kMostArrivals) state.arrivals.resize(kMostArrivals);
  if (state.followed.running) state.followed.trouble = said->trouble;
  if (said->over) {
    state.followed.running = false;
    followed.reset();
  }
  return true;
}

}  // namespace huewright
