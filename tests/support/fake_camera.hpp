// A camera that does what it is told to: for tests of what uses one.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <stop_token>
#include <utility>
#include <variant>
#include <vector>

#include "capture/camera.hpp"
#include "support/fake_frames.hpp"

namespace huewright::fixtures {

/// What comes next: a frame, a problem, or something to do before the next one.
using FakeStep = std::variant<Frame, Problem, std::function<void()>>;

class FakeCamera : public Camera {
 public:
  FakeCamera(CameraFacts facts, std::vector<FakeStep> steps, CameraHolds holds = {Hold::Held, Hold::Refused, Hold::NoSuch}, int* held = nullptr)
      : facts_(std::move(facts)), steps_(std::move(steps)), holds_(holds), held_(held) {}

  const CameraFacts& facts() const override { return facts_; }

  /// Frames are 1/30 s apart, the first a 30th after opening. After the last step a file has ended, and a live camera is lost.
  Result<std::optional<Frame>> next(const std::stop_token& stop) override {
    while (!stop.stop_requested()) {
      if (at_ == steps_.size()) {
        if (facts_.live) return fail(Code::CameraLost, facts_.name);
        return std::nullopt;
      }
      FakeStep step = steps_[at_++];
      if (auto* act = std::get_if<std::function<void()>>(&step)) {
        (*act)();
        continue;
      }
      if (auto* problem = std::get_if<Problem>(&step)) return std::unexpected(*problem);
      Frame frame = std::move(std::get<Frame>(step));
      frame.number = number_++;
      frame.seconds = static_cast<double>(number_) / 30;
      return frame;
    }
    return std::nullopt;
  }

  CameraHolds hold() override {
    if (held_ != nullptr) ++*held_;
    return holds_;
  }

 private:
  CameraFacts facts_;
  std::vector<FakeStep> steps_;
  CameraHolds holds_;
  int* held_;
  std::size_t at_ = 0;
  std::uint64_t number_ = 0;
};

inline CameraFacts fakeFacts(bool live) { return {.name = "fake", .size = kFakeSize, .rate = 30, .compressed = true, .live = live}; }

/// So many good frames.
inline std::vector<FakeStep> goodSteps(unsigned first_seed, unsigned frames) {
  std::vector<FakeStep> steps;
  for (unsigned i = 0; i < frames; ++i) steps.emplace_back(noisyFrame(first_seed + i));
  return steps;
}

inline std::vector<FakeStep> operator+(std::vector<FakeStep> a, const std::vector<FakeStep>& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

}  // namespace huewright::fixtures
