#include "session/live_watch.hpp"

#include <fmt/format.h>

#include "photo/write.hpp"

namespace huewright {

Result<LiveWatch> LiveWatch::open(const Session& session, JudgeRequest request, const LivePace& pace, CameraFeed::Open open, const FeedTimes& times) {
  if (!open) open = [source = request.photo.string()] { return openCamera(source); };
  auto judge = LiveJudge::begin(session, std::move(request));
  if (!judge) return std::unexpected(judge.error());
  auto feed = CameraFeed::open(std::move(open), times);
  if (!feed) return std::unexpected(feed.error());
  return LiveWatch(std::move(*judge), std::move(*feed), pace);
}

Result<std::optional<LiveEvent>> LiveWatch::next(const std::stop_token& stop) {
  const auto judged = [&] {
    unjudged_ = false;
    judged_at_ = last_->seconds;
    return LiveEvent{judge_.judge(stop), {}, last_->seconds};
  };
  while (true) {
    auto event = feed_.next(stop);
    if (!event) return std::unexpected(event.error());
    if (!*event) {
      if (stop.stop_requested() || !unjudged_) return std::optional<LiveEvent>{};
      return std::optional(judged());
    }
    if ((*event)->news) {
      if ((*event)->news->kind == FeedNews::Kind::Back) judge_.beginAnew();  // it may have been moved meanwhile
      return std::optional(LiveEvent{{}, std::move((*event)->news), last_ ? last_->seconds : 0});
    }
    last_ = std::move((*event)->frame);
    if (seen_) seen_(*last_);
    judge_.take(last_->rgb, last_->size, last_->rounding);
    unjudged_ = true;
    // Half a frame's time is forgiven: of 30 frames a second every third is judged, whatever its time is rounded to.
    constexpr double kHalfFrame = 0.5 / 30;
    if (judged_at_ && last_->seconds - *judged_at_ < pace_.seconds - kHalfFrame) continue;
    return std::optional(judged());
  }
}

Result<void> LiveWatch::judgeBy(const Session& session, JudgeRequest request) {
  auto judge = LiveJudge::begin(session, std::move(request));
  if (!judge) return std::unexpected(judge.error());
  judge_ = std::move(*judge);
  unjudged_ = false;
  return {};
}

Result<std::filesystem::path> takeStill(const Frame& frame, const std::filesystem::path& folder) {
  std::error_code error;
  for (int n = 1;; ++n) {
    std::filesystem::path path = folder / fmt::format("still-{:03}.png", n);
    if (std::filesystem::exists(path, error)) continue;
    if (const auto written = writeStill(path, frame.size, frame.rgb, frame.rounding); !written) return std::unexpected(written.error());
    return path;
  }
}

}  // namespace huewright
