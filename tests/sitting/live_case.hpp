// Cameras that are made up for a sitting, and waiting for what comes of them.
#pragma once

#include <atomic>
#include <chrono>
#include <functional>
#include <memory>
#include <thread>
#include <vector>

#include "sitting_case.hpp"
#include "support/fake_camera.hpp"
#include "support/live_frames.hpp"

namespace huewright::fixtures {

/// So many frames of the sample photo on the mat, with noise; the same each time.
inline std::vector<FakeStep> matFrames(int count, int side = 700, unsigned seed = 1) {
  LiveScene scene("on-the-mat.jpg", side, seed);
  std::vector<FakeStep> steps;
  for (int i = 0; i < count; ++i) steps.emplace_back(Frame{.size = scene.size(), .rgb = scene.frame(), .number = 0, .seconds = 0});
  return steps;
}

/// A step that goes on only when the flag is set, or after 20 s.
inline FakeStep waitFor(std::shared_ptr<std::atomic<bool>> flag) {
  return std::function<void()>([flag] {
    for (const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(20); !*flag && std::chrono::steady_clock::now() < end;) std::this_thread::sleep_for(std::chrono::milliseconds(1));
  });
}

/// Opens one made-up camera after the other, each once; then there is none.
class FakeOpener {
 public:
  FakeOpener(bool live, std::vector<std::vector<FakeStep>> rolls) : live_(live), rolls_(std::move(rolls)) {}

  Result<std::unique_ptr<Camera>> operator()(const std::string& source) const {
    const std::size_t at = (*next_)++;
    if (at >= rolls_.size()) return fail(Code::CameraUnusable, "There is no camera \"" + source + "\" here");
    CameraFacts facts = fakeFacts(live_);
    facts.name = source;
    for (const FakeStep& step : rolls_[at])
      if (const Frame* frame = std::get_if<Frame>(&step)) facts.size = frame->size;
    return std::make_unique<FakeCamera>(facts, rolls_[at]);
  }

 private:
  bool live_;
  std::vector<std::vector<FakeStep>> rolls_;
  std::shared_ptr<std::atomic<std::size_t>> next_ = std::make_shared<std::atomic<std::size_t>>(0);
};

/// Asks again and again until it is so; false after 20 s.
inline bool comes(const std::function<bool()>& so) {
  const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(20);
  while (!so()) {
    if (std::chrono::steady_clock::now() > end) return false;
    std::this_thread::sleep_for(std::chrono::milliseconds(2));
  }
  return true;
}

inline LiveWays quickWays(FakeOpener opener) {
  LiveWays ways;
  ways.open = std::move(opener);
  ways.times = {std::chrono::milliseconds(5), 0.1, 3};
  ways.film_in_time = false;
  return ways;
}

}  // namespace huewright::fixtures
