#include "sitting/inside.hpp"

#include "sitting/memory.hpp"

namespace huewright {

void Sitting::Inside::followFolder(const fs::path& folder) {
  if (folder.empty()) return say("Choose a folder first.", true);
  if (folder != state.followed.folder) state.arrivals.clear();
  state.followed = {true, folder, false, {}};
  followed_key = choicesKey(state.plan);
  followed = std::make_unique<FolderRun>(session, folder, choices(), devices.folder, wake, std::move(followed));
  keep();
}

void Sitting::Inside::unfollow() {
  if (followed) followed->stop();
  state.followed.running = false;
  state.followed.trouble.clear();
}

bool Sitting::Inside::pollFollowed() {
  if (!followed) return false;
  auto said = followed->take();
  if (!said) return false;
  for (Arrival& arrival : said->arrivals) {
    arrival.id = ++arrived;
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
