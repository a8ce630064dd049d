// A live camera on a thread of its own, for a window that must not wait.
#pragma once

#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "session/live_watch.hpp"
#include "sitting/live_shown.hpp"

namespace huewright {

/// How cameras are reached; tests have their own.
struct LiveWays {
  std::function<Result<std::unique_ptr<Camera>>(const std::string& source)> open{};   ///< empty: openCamera
  FeedTimes times{};
  bool film_in_time = true;                ///< frames of a film are waited for as if a camera gave them; else it runs as fast as it can
};

/// Marks made by hand in a photo of that size.
struct LiveMarks {
  Regions regions;
  Size size;
};

/// What is to be judged, and how.
struct LiveWish {
  JudgeRequest judge;                      ///< its photo is the camera's name; it has no regions
  bool by_marks = false;                   ///< by these marks, if there are any and the frames have their size; else by the mat
  std::optional<LiveMarks> marks{};
};

class LiveRun {
 public:
  /// Opens the camera and judges until it is told to stop, a film ends, or the camera cannot be used. In: a session that outlives this; wake: called on the thread when take() has something, about
  /// ten times a second; another run, which is stopped first and waited for on this one's thread, since a camera can be open once only.
  LiveRun(const Session& session, LiveWish wish, LiveWays ways, std::function<void()> wake, std::unique_ptr<LiveRun> before = nullptr);
  /// Stops and waits.
  ~LiveRun();
  LiveRun(const LiveRun&) = delete;
  LiveRun& operator=(const LiveRun&) = delete;

  /// Asks it to stop; take() tells when it is over.
  void stop();
  /// From the next frame on by this; the camera stays open, and the average begins anew.
  void judgeBy(LiveWish wish);
  /// Forgets the average and looks again.
  void beginAnew();

  /// What is newest, if it has changed since it was asked last.
  std::optional<LiveNow> take();

 private:
  void run(const std::stop_token& stop);
  void watch(const std::stop_token& stop);
  bool heed(LiveWatch& live);
  Result<void> aim(LiveWatch& live);
  JudgeRequest wanted(Size frame);
  void news(LiveWatch& live, const FeedNews& news);
  void verdict(const LiveWatch& live, const LiveVerdict& verdict);
  void tell(bool at_once);

  const Session& session_;
  LiveWays ways_;
  std::function<void()> wake_;
  std::unique_ptr<LiveRun> before_;
  LiveNow now_;                            ///< the thread's own, as are those that follow
  LiveWish wish_;
  bool unfit_ = false;                     ///< the wish cannot be judged by
  std::chrono::steady_clock::time_point woken_{};
  std::mutex lock_;
  std::condition_variable_any stopped_;
  std::optional<LiveWish> next_wish_;      ///< under the lock, as are those that follow
  bool anew_ = false;
  std::optional<LiveNow> told_;
  std::jthread thread_;                    ///< the last, so that all else is there when it starts
};

}  // namespace huewright
