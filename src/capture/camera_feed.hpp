// The good frames of a camera, and what happened besides: a feed that a bad frame, or a camera that is unplugged, does not end.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <stop_token>

#include "base/caution.hpp"
#include "base/problem.hpp"
#include "capture/camera.hpp"
#include "capture/frame_check.hpp"

namespace huewright {

struct FeedTimes {
  std::chrono::milliseconds again{1000};  ///< how often a camera that is away is tried
  double settle_seconds = 2;              ///< exposure and balance settle so long after opening, or for so many good frames, before they are held
  std::uint64_t settle_frames = 30;
};

struct FeedNews {
  enum class Kind {
    Away,       ///< caution; the camera is tried again and again
    Back,       ///< a good frame follows
    Empty,      ///< the first such frame after good ones; and once more, with a caution, when ten bad ones have come in a row
    Frozen,     ///< likewise
    Half,       ///< likewise
    OtherSize,  ///< size, from now on; the frame that showed it was left out
    Held,       ///< holds, once after each opening of a live camera; caution when something could not be held
    End,        ///< of a file
  } kind{};
  std::optional<Caution> caution{};
  Size size{};           ///< OtherSize
  CameraHolds holds{};   ///< Held
};

/// One of the two.
struct FeedEvent {
  std::optional<Frame> frame{};
  std::optional<FeedNews> news{};
};

/// Frames are numbered and timed since the feed was opened, through whatever goes away and comes back: numbers count the bad frames too, so that a gap shows
/// what was left out. To be used from one thread at a time.
class CameraFeed {
 public:
  using Open = std::function<Result<std::unique_ptr<Camera>>()>;

  /// Opens the camera by the function, which is also asked whenever the camera is away. Errors: those of the function.
  static Result<CameraFeed> open(Open open, const FeedTimes& times = {});

  /// Waits for the next good frame, or the next thing to tell. Nothing when a stop was asked for, which ends every wait at once, and after the end of a file.
  /// Errors: those of the camera but CameraLost of a live one, which is waited for.
  Result<std::optional<FeedEvent>> next(const std::stop_token& stop);

  /// Of the camera as it was opened last.
  const CameraFacts& facts() const { return facts_; }
  /// Free until they were held, and again after each opening.
  const CameraHolds& holds() const { return holds_; }
  bool isAway() const { return camera_ == nullptr; }
  /// Bad frames since the feed was opened.
  std::uint64_t leftOut() const { return left_out_; }

 private:
  using Clock = std::chrono::steady_clock;

  CameraFeed(Open open, std::unique_ptr<Camera> camera, const FeedTimes& times);
  void take(std::unique_ptr<Camera> camera);
  FeedEvent goneAway();
  /// False when a stop was asked for.
  bool waitForIt(const std::stop_token& stop);
  std::optional<FeedEvent> judged(Frame frame);
  std::optional<FeedNews> badFrame(FrameState state, Size size);
  bool isSettled() const;

  Open open_;
  FeedTimes times_;
  std::unique_ptr<Camera> camera_;
  CameraFacts facts_{};
  CameraHolds holds_{};
  FrameCheck check_;
  Clock::time_point begun_ = Clock::now();
  std::uint64_t number_ = 0, left_out_ = 0;
  double seconds_before_ = 0;                                ///< from the feed's opening to the camera's
  std::optional<double> first_seconds_{};                    ///< of the first good frame since the camera was opened
  double last_seconds_ = 0;
  std::uint64_t good_since_opened_ = 0;
  std::uint64_t bad_in_a_row_ = 0;
  FrameState last_state_ = FrameState::Good;
  bool was_away_ = false, is_held_ = false, has_ended_ = false;
  std::optional<Frame> kept_{};                              ///< comes after what is told first
};

}  // namespace huewright
