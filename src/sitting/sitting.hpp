// One sitting at the desk: the plan, what is found out from it, and the workers that do so. Free of any window.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>

#include "session/watch_folder.hpp"
#include "sitting/action.hpp"
#include "sitting/live_run.hpp"
#include "sitting/state.hpp"

namespace huewright {

struct SittingPlaces {
  std::filesystem::path calib;                 ///< the data folder
  std::filesystem::path samples;               ///< of the demo
  std::filesystem::path memory;                ///< where the last sitting is kept; empty: nothing is kept
};

/// How cameras and folders are watched; tests have their own.
struct SittingDevices {
  LiveWays camera{};
  std::filesystem::path devices = "/dev";      ///< where cameras are listed
  WatchTimes folder{};
};

/// Keeps a plan and works out everything that follows from it. All calls on one thread; work runs on two threads of its own, a quick one for pictures and a slow one for judging;
/// a camera that runs and a folder that is followed have a thread each, for which neither waits.
class Sitting {
 public:
  /// Takes up the last sitting where one is kept; what cannot be read of it is said in a notice and left where it is. wake: called on a worker's thread when poll() has something to do.
  /// Errors: DataMissing.
  static Result<Sitting> open(SittingPlaces places, std::function<void()> wake = {});
  /// The same with other cameras.
  static Result<Sitting> open(SittingPlaces places, std::function<void()> wake, SittingDevices devices);
  Sitting(Sitting&&) noexcept;
  Sitting& operator=(Sitting&&) noexcept;
  /// Writes the plan down before it goes.
  ~Sitting();

  /// Does it, or says in a notice why not; then nothing else has changed.
  void apply(const Action& action);

  /// Takes in what the workers have finished, and what camera and folder have told. True when the state changed.
  bool poll();

  /// Waits for all work, but for no camera and no folder. For tests.
  void settle();

  const SittingState& state() const;

  /// The very request that the verdict comes from; as the command line would make it of the same choices. Nothing without a first photo.
  std::optional<JudgeRequest> judgeRequest() const;

 private:
  struct Inside;
  explicit Sitting(std::unique_ptr<Inside> in);
  std::unique_ptr<Inside> in_;
};

}  // namespace huewright
