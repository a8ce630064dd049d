#include "sitting/live_run.hpp"

#include <chrono>
#include <exception>

#include "sitting/frame_picture.hpp"
#include "sitting/live_words.hpp"
#include "sitting/window_words.hpp"
#include "sitting/words.hpp"

namespace huewright {
namespace {

constexpr std::chrono::milliseconds kBetweenWakes{90};   // ten a second, with some give

}  // namespace

LiveRun::LiveRun(const Session& session, LiveWish wish, LiveWays ways, std::function<void()> wake, std::unique_ptr<LiveRun> before)
    : session_(session), ways_(std::move(ways)), wake_(std::move(wake)), before_(std::move(before)), wish_(std::move(wish)) {
  if (before_) before_->stop();
  now_.state_words = "Opening the camera …";
  told_ = now_;
  thread_ = std::jthread([this](const std::stop_token& stop) { run(stop); });
}

LiveRun::~LiveRun() = default;

void LiveRun::stop() { thread_.request_stop(); }

void LiveRun::judgeBy(LiveWish wish) {
  const std::scoped_lock hold(lock_);
  next_wish_ = std::move(wish);
}

void LiveRun::beginAnew() {
  const std::scoped_lock hold(lock_);
  anew_ = true;
}

std::optional<LiveNow> LiveRun::take() {
  const std::scoped_lock hold(lock_);
  return std::exchange(told_, std::nullopt);
}

void LiveRun::tell(bool at_once) {
  {
    const std::scoped_lock hold(lock_);
    told_ = now_;
  }
  const auto time = std::chrono::steady_clock::now();
  if (!at_once && time - woken_ < kBetweenWakes) return;
  woken_ = time;
  if (wake_) wake_();
}

void LiveRun::run(const std::stop_token& stop) {
  before_.reset();
  try {
    watch(stop);
  } catch (const std::exception& error) {
    now_.judged.reset();
    now_.trouble = windowWords(Problem{Code::Internal, error.what()});
  }
  now_.over = true;
  tell(true);
}

JudgeRequest LiveRun::wanted(Size frame) {
  JudgeRequest request = wish_.judge;
  now_.by_marks = wish_.by_marks && wish_.marks && wish_.marks->size == frame;
  if (now_.by_marks) {
    request.regions = wish_.marks->regions;
    now_.places = "Panel and card are where the marks in the photo say.";
  } else if (!wish_.by_marks) {
    now_.places = "Panel and card are looked for on the mat.";
  } else if (!wish_.marks) {
    now_.places = "Nothing is marked by hand in the photo that is shown, so the mat is looked for. Take a still, mark panel and card in it, and come back.";
  } else {
    now_.places = "The marks are of a photo of another size, so the mat is looked for. Take a still, mark panel and card in it, and come back.";
  }
  return request;
}

Result<void> LiveRun::aim(LiveWatch& live) {
  const auto done = live.judgeBy(session_, wanted(live.feed().facts().size));
  unfit_ = !done;
  now_.judged.reset();
  now_.regions = {};
  now_.trouble = done ? "" : windowWords(done.error());
  return done;
}

/// What was asked for meanwhile. True when there was something.
bool LiveRun::heed(LiveWatch& live) {
  std::optional<LiveWish> wish;
  bool anew = false;
  {
    const std::scoped_lock hold(lock_);
    wish = std::exchange(next_wish_, std::nullopt);
    anew = std::exchange(anew_, false);
  }
  if (wish) {
    wish_ = std::move(*wish);
    static_cast<void>(aim(live));  // it stands in `trouble`
  } else if (anew) {
    live.beginAnew();
  }
  return wish || anew;
}

void LiveRun::news(LiveWatch& live, const FeedNews& news) {
  now_.away = news.kind == FeedNews::Kind::Away;
  if (now_.away) now_.judged.reset(), now_.regions = {}, now_.held.clear(), now_.state_words.clear(), now_.noise_words.clear();
  if (news.kind == FeedNews::Kind::Held) now_.held = heldWords(live.feed().facts(), news.holds);
  else if (news.caution) now_.trouble = windowWords(*news.caution);
  else if (news.kind == FeedNews::Kind::Back) now_.trouble.clear();
  else if (news.kind == FeedNews::Kind::End) now_.places = "The film is at its end; this is what its last frames showed.";
  if (news.kind == FeedNews::Kind::OtherSize && wish_.by_marks) static_cast<void>(aim(live));
}

void LiveRun::verdict(const LiveWatch& live, const LiveVerdict& verdict) {
  now_.frame = std::make_shared<const Frame>(*live.lastFrame());
  now_.picture = framePicture(*now_.frame);
  now_.state = verdict.state;
  now_.state_words = stateWords(verdict.state, verdict.frames);
  if (unfit_) return;
  now_.regions = verdict.regions;
  now_.frames = verdict.frames;
  now_.frame_noise = verdict.frame_noise;
  now_.noise = verdict.noise;
  now_.noise_words = noiseWords(verdict.frame_noise, verdict.noise);
  now_.judged.reset();
  now_.trouble.clear();
  if (verdict.report) now_.judged = judgedShown(verdict.report);
  else if (verdict.problem && verdict.problem->code != Code::Stopped) now_.trouble = windowWords(*verdict.problem);
}

void LiveRun::watch(const std::stop_token& stop) {
  const std::string source = wish_.judge.photo.string();
  auto opened = LiveWatch::open(session_, wanted({}), {}, [this, source] { return ways_.open ? ways_.open(source) : openCamera(source); }, ways_.times);
  if (!opened) {
    now_.state_words.clear();
    now_.trouble = windowWords(opened.error());
    return;
  }
  LiveWatch live = std::move(*opened);
  if (wish_.by_marks) static_cast<void>(aim(live));
  now_.held = heldWords(live.feed().facts(), live.feed().holds());
  const auto begun = std::chrono::steady_clock::now();
  const bool in_time = ways_.film_in_time && !live.feed().facts().live;
  bool at_end = false;
  while (!stop.stop_requested()) {
    if (!at_end) heed(live);
    auto event = live.next(stop);
    if (!event) {
      now_.judged.reset();
      now_.state_words.clear();
      now_.trouble = windowWords(event.error());
      return;
    }
    if (!*event) return;
    if ((*event)->news) {
      at_end = (*event)->news->kind == FeedNews::Kind::End;
      news(live, *(*event)->news);
      tell(true);
      continue;
    }
    verdict(live, *(*event)->verdict);
    if (in_time) {
      std::unique_lock hold(lock_);
      const auto due = begun + std::chrono::duration_cast<std::chrono::steady_clock::duration>(std::chrono::duration<double>((*event)->seconds));
      stopped_.wait_until(hold, stop, due, [] { return false; });
    }
    tell(false);
  }
}

}  // namespace huewright
