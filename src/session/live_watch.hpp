// A camera and a verdict on what it shows, one after the other for as long as it runs.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <stop_token>

#include "capture/camera_feed.hpp"
#include "session/live_judge.hpp"

namespace huewright {

struct LivePace {
  double seconds = 0.1;   ///< between verdicts, by the frames' own times; 0: one a frame
};

/// One of the two.
struct LiveEvent {
  std::optional<LiveVerdict> verdict{};
  std::optional<FeedNews> news{};
  double seconds = 0;     ///< of the frame, since the camera was opened
};

class LiveWatch {
 public:
  /// Opens the camera that the request names as its photo. In: a session that outlives this; how a camera is opened (tests have their own). Errors: those of
  /// LiveJudge::begin and openCamera.
  static Result<LiveWatch> open(const Session& session, JudgeRequest request, const LivePace& pace = {}, CameraFeed::Open open = {}, const FeedTimes& times = {});

  /// Takes frames in until there is something to tell. Nothing when a stop was asked for, and after the end of a file, of which the last frames' verdict
  /// is told. Errors: those of CameraFeed::next.
  Result<std::optional<LiveEvent>> next(const std::stop_token& stop);

  /// Called with each good frame, before it is judged.
  void onFrame(std::function<void(const Frame&)> seen) { seen_ = std::move(seen); }

  /// The last good frame; nothing before the first.
  const std::optional<Frame>& lastFrame() const { return last_; }
  const CameraFeed& feed() const { return feed_; }

  /// Forgets the average, as when other places are meant.
  void beginAnew() {
    judge_.beginAnew();
    unjudged_ = false;
  }

  /// From the next frame on it is judged by this request, whose photo is not looked at; the camera stays open. Errors: those of LiveJudge::begin; then nothing has changed.
  Result<void> judgeBy(const Session& session, JudgeRequest request);

 private:
  LiveWatch(LiveJudge judge, CameraFeed feed, const LivePace& pace) : judge_(std::move(judge)), feed_(std::move(feed)), pace_(pace) {}

  LiveJudge judge_;
  CameraFeed feed_;
  LivePace pace_;
  std::function<void(const Frame&)> seen_{};
  std::optional<Frame> last_{};
  std::optional<double> judged_at_{};
  bool unjudged_ = false;   ///< frames came since the last verdict
};

/// Writes a frame as a photo (writeStill) into a folder, as "still-001.png" or the first number that is free; nothing that is there is replaced. Errors: WriteFailed.
Result<std::filesystem::path> takeStill(const Frame& frame, const std::filesystem::path& folder);

}  // namespace huewright
