#include "sitting/inside.hpp"

#include "sitting/memory.hpp"
#include "sitting/window_words.hpp"

namespace huewright {
namespace {

constexpr std::size_t kMostUndo = 200;

}  // namespace

void Sitting::Inside::say(std::string sentence, bool bad) { state.notice = {std::move(sentence), bad, state.notice.number + 1}; }
void Sitting::Inside::say(const Problem& problem) { say(windowWords(problem), true); }

void Sitting::Inside::remember(const std::string& words, bool joins) {
  if (joins && joinable && !past.empty() && past.back().words == words) return;
  past.push_back({state.plan, words});
  if (past.size() > kMostUndo) past.erase(past.begin());
  future.clear();
  joinable = true;
}

void Sitting::Inside::follow() {
  state.can_undo = !past.empty();
  state.can_redo = !future.empty();
  state.undo_words = past.empty() ? "" : past.back().words;
  state.redo_words = future.empty() ? "" : future.back().words;
  showPhotos();
  if (judgeKey(state.plan) != judged_key) judge();
  if (seriesKey(state.plan) != series_key) advise();
  if (cameraKey(state.plan) != camera_key) profile();
  keep();
}

void Sitting::Inside::step(std::vector<Past>& from, std::vector<Past>& to, const char* none) {
  if (from.empty()) return say(none, true);
  to.push_back({std::move(state.plan), from.back().words});
  state.plan = std::move(from.back().plan);
  from.pop_back();
  joinable = false;
  follow();
}

void Sitting::Inside::stop() {
  quick.cancelAll();
  slow.cancelAll();
  state.judging = state.advising = state.profiling = false;
  judged_key.clear(), series_key.clear(), camera_key.clear();  // the next change starts them again
  if (!report && firstPhoto(state.plan)) {
    state.judged.reset();
    state.judge_trouble = "It was stopped before there was a verdict. Any change starts it again.";
  }
  for (PhotoShown& shown : state.photos)
    if (shown.opening) shown.opening = false, shown.trouble = "Stopped before it was read.";
  keep();
}

}  // namespace huewright
