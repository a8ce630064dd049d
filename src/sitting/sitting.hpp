// One sitting at the desk: the plan, what is found out from it, and the workers that do so. Free of any window.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>

#include "sitting/action.hpp"
#include "sitting/state.hpp"

namespace huewright {

struct SittingPlaces {
  std::filesystem::path calib;                 ///< the data folder
  std::filesystem::path samples;               ///< of the demo
  std::filesystem::path memory;                ///< where the last sitting is kept; empty: nothing is kept
};

/// Keeps a plan and works out everything that follows from it. All calls on one thread; work runs on two threads of its own, a quick one for pictures and a slow one for judging.
class Sitting {
 public:
  /// Takes up the last sitting where one is kept; what cannot be read of it is said in a notice and left where it is. wake: called on a worker's thread when poll() has something to do.
  /// Errors: DataMissing.
  static Result<Sitting> open(SittingPlaces places, std::function<void()> wake = {});
  Sitting(Sitting&&) noexcept;
  Sitting& operator=(Sitting&&) noexcept;
  /// Writes the plan down before it goes.
  ~Sitting();

  /// Does it, or says in a notice why not; then nothing else has changed.
  void apply(const Action& action);

  /// Takes in what the workers have finished. True when the state changed.
  bool poll();

  /// Waits for all work. For tests.
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
