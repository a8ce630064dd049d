#include "sitting/folder_run.hpp"

#include <exception>
#include <utility>

#include "base/text.hpp"
#include "session/report_text.hpp"
#include "session/watched_photo.hpp"
#include "sitting/window_words.hpp"
#include "sitting/words.hpp"

namespace huewright {
namespace {

Arrival arrivalOf(const std::filesystem::path& folder, const WatchEvent& event) {
  Arrival out;
  out.file = folder / event.name;
  out.name = isPlainUtf8(event.name) ? event.name : asPlainUtf8(event.name);
  if (event.problem) {
    out.problem = true;
    out.sentence = windowWords(*event.problem);
    return out;
  }
  const JudgedShown judged = judgedShown(event.verdict->report);
  const PanelShown& nearest = judged.panels[judged.main];
  out.headline = nearest.headline;
  out.band = nearest.band;
  out.panel = nearest.swatch;
  out.card = judged.card;
  out.sentence = verdictSentences(*event.verdict->report);
  out.report = event.verdict->report;
  return out;
}

}  // namespace

FolderRun::FolderRun(const Session& session, std::filesystem::path folder, JudgeRequest judge, const WatchTimes& times, std::function<void()> wake, std::unique_ptr<FolderRun> before)
    : session_(session), folder_(std::move(folder)), times_(times), wake_(std::move(wake)), before_(std::move(before)), judge_(std::move(judge)) {
  if (before_) before_->stop();
  thread_ = std::jthread([this](const std::stop_token& stop) { run(stop); });
}

FolderRun::~FolderRun() = default;

void FolderRun::stop() { thread_.request_stop(); }

void FolderRun::judgeBy(JudgeRequest judge) {
  const std::scoped_lock hold(lock_);
  judge_ = std::move(judge);
}

std::optional<FolderSaid> FolderRun::take() {
  const std::scoped_lock hold(lock_);
  if (!std::exchange(news_, false)) return {};
  FolderSaid out = said_;
  said_.arrivals.clear();
  return out;
}

void FolderRun::tell(std::optional<Arrival> arrival, const std::optional<std::string>& trouble, bool over) {
  {
    const std::scoped_lock hold(lock_);
    if (arrival) said_.arrivals.push_back(std::move(*arrival));
    if (trouble) said_.trouble = *trouble;
    said_.over = over;
    news_ = true;
  }
  if (wake_) wake_();
}

void FolderRun::run(const std::stop_token& stop) {
  before_.reset();
  try {
    watch(stop);
  } catch (const std::exception& error) {
    tell({}, windowWords(Problem{Code::Internal, error.what()}));
  }
  tell({}, {}, true);
}

void FolderRun::watch(const std::stop_token& stop) {
  const auto judge = [this](const std::filesystem::path& photo, const std::stop_token& until) -> Result<PhotoVerdict> {
    JudgeRequest request;
    {
      const std::scoped_lock hold(lock_);
      request = judge_;
    }
    return judgeWatched(session_, std::move(request), photo, false, nullptr, until);
  };
  auto folder = WatchFolder::open(folder_, judge, times_);
  if (!folder) return tell({}, windowWords(folder.error()));
  while (true) {
    const auto event = folder->next(stop);
    if (!event) {
      tell({}, windowWords(event.error()));
      break;
    }
    if (!*event) break;
    const WatchEvent& one = **event;
    switch (one.kind) {
      case WatchEvent::Kind::Judged:
      case WatchEvent::Kind::Unusable: tell(arrivalOf(folder_, one), {}); break;
      case WatchEvent::Kind::FolderAway:
      case WatchEvent::Kind::ListDamaged: tell({}, one.caution ? windowWords(*one.caution) : std::string()); break;
      case WatchEvent::Kind::FolderBack: tell({}, std::string()); break;
      case WatchEvent::Kind::SamePhoto: break;  // it was told under its other name
    }
  }
  if (const auto kept = folder->keepList(); !kept) tell({}, windowWords(kept.error()));
}

}  // namespace huewright
