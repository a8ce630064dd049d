#include "capture/camera_feed.hpp"

#include <algorithm>
#include <condition_variable>
#include <mutex>
#include <utility>

#include "capture/hold_words.hpp"

namespace huewright {
namespace {

constexpr std::uint64_t kBadInARow = 10;

FeedEvent newsOf(FeedNews news) { return {.frame = {}, .news = std::move(news)}; }

/// False when a stop was asked for.
bool slept(std::chrono::milliseconds time, const std::stop_token& stop) {
  std::mutex mutex;
  std::condition_variable_any never;
  std::unique_lock lock(mutex);
  never.wait_for(lock, stop, time, [] { return false; });
  return !stop.stop_requested();
}

FeedNews::Kind kindOf(FrameState state) {
  switch (state) {
    case FrameState::Frozen: return FeedNews::Kind::Frozen;
    case FrameState::Half: return FeedNews::Kind::Half;
    case FrameState::OtherSize: return FeedNews::Kind::OtherSize;
    default: return FeedNews::Kind::Empty;
  }
}

CautionCode cautionOf(FrameState state) {
  switch (state) {
    case FrameState::Frozen: return CautionCode::CameraFrozen;
    case FrameState::Half: return CautionCode::CameraHalf;
    default: return CautionCode::CameraEmpty;
  }
}

}  // namespace

CameraFeed::CameraFeed(Open open, std::unique_ptr<Camera> camera, const FeedTimes& times)
    : open_(std::move(open)), times_(times), check_(camera->facts().live) {
  take(std::move(camera));
}

Result<CameraFeed> CameraFeed::open(Open open, const FeedTimes& times) {
  auto camera = open();
  if (!camera) return std::unexpected(camera.error());
  return CameraFeed(std::move(open), std::move(*camera), times);
}

void CameraFeed::take(std::unique_ptr<Camera> camera) {
  camera_ = std::move(camera);
  facts_ = camera_->facts();
  holds_ = {};
  is_held_ = !facts_.live;
  if (is_held_) holds_ = {Hold::NoSuch, Hold::NoSuch, Hold::NoSuch};
  check_.restart();
  first_seconds_.reset();
  good_since_opened_ = bad_in_a_row_ = 0;
  last_state_ = FrameState::Good;
  if (facts_.live) seconds_before_ = std::max(std::chrono::duration<double>(Clock::now() - begun_).count(), last_seconds_);
}

FeedEvent CameraFeed::goneAway() {
  camera_.reset();  // gives the device free, without which it cannot come back under its name
  holds_ = {};
  kept_.reset();
  was_away_ = true;
  return newsOf({.kind = FeedNews::Kind::Away, .caution = Caution{CautionCode::CameraAway, facts_.name}, .size = {}, .holds = {}});
}

bool CameraFeed::waitForIt(const std::stop_token& stop) {
  while (slept(times_.again, stop))
    if (auto camera = open_()) {
      take(std::move(*camera));
      return true;
    }
  return false;
}

bool CameraFeed::isSettled() const {
  return first_seconds_ && (good_since_opened_ >= times_.settle_frames || last_seconds_ - *first_seconds_ >= times_.settle_seconds);
}

Result<std::optional<FeedEvent>> CameraFeed::next(const std::stop_token& stop) {
  while (!stop.stop_requested() && !has_ended_) {
    if (kept_) return FeedEvent{.frame = std::exchange(kept_, std::nullopt), .news = {}};
    if (camera_ == nullptr && !waitForIt(stop)) break;
    if (!is_held_ && isSettled()) {
      is_held_ = true;
      holds_ = camera_->hold();
      FeedNews news{.kind = FeedNews::Kind::Held, .caution = {}, .size = {}, .holds = holds_};
      if (somethingIsFree(holds_)) news.caution = Caution{CautionCode::CameraNotHeld, holdWords(holds_)};
      return newsOf(std::move(news));
    }
    auto frame = camera_->next(stop);
    if (!frame) {
      if (frame.error().code != Code::CameraLost || !facts_.live) return std::unexpected(frame.error());
      if (!was_away_) return goneAway();
      camera_.reset();  // it was opened, and gives nothing: still away
      continue;
    }
    if (!*frame) {
      if (stop.stop_requested()) break;
      has_ended_ = true;
      return newsOf({.kind = FeedNews::Kind::End, .caution = {}, .size = {}, .holds = {}});
    }
    if (auto event = judged(std::move(**frame))) return event;
  }
  return std::nullopt;
}

std::optional<FeedEvent> CameraFeed::judged(Frame frame) {
  frame.number = number_++;
  frame.seconds += seconds_before_;
  last_seconds_ = frame.seconds;
  const FrameState state = check_.look(frame);
  if (state != FrameState::Good) {
    ++left_out_;
    if (auto news = badFrame(state, frame.size)) return newsOf(std::move(*news));
    return std::nullopt;
  }
  bad_in_a_row_ = 0;
  last_state_ = FrameState::Good;
  ++good_since_opened_;
  if (!first_seconds_) first_seconds_ = frame.seconds;
  if (!std::exchange(was_away_, false)) return FeedEvent{.frame = std::move(frame), .news = {}};
  kept_ = std::move(frame);
  return newsOf({.kind = FeedNews::Kind::Back, .caution = {}, .size = {}, .holds = {}});
}

std::optional<FeedNews> CameraFeed::badFrame(FrameState state, Size size) {
  ++bad_in_a_row_;
  const bool is_new = std::exchange(last_state_, state) != state;
  FeedNews news{.kind = kindOf(state), .caution = {}, .size = size, .holds = {}};
  if (state == FrameState::OtherSize) {
    facts_.size = size;
    return news;
  }
  if (bad_in_a_row_ == kBadInARow) news.caution = Caution{cautionOf(state), facts_.name};
  if (!is_new && !news.caution) return std::nullopt;
  return news;
}

}  // namespace huewright
