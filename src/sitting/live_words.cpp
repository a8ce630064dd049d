#include "sitting/live_words.hpp"

#include <cmath>
#include <fmt/format.h>

#include "capture/hold_words.hpp"

namespace huewright {
namespace {

constexpr double kLeastTold = 0.005;   // less would read 0.00

}  // namespace

std::string stateWords(LiveState state, double frames) {
  switch (state) {
    case LiveState::Looking: return "Looking for panel and card.";
    case LiveState::Moving: return "It moves: hold camera and panel still. Moving frames are left out.";
    case LiveState::Steady: break;
  }
  const long whole = std::lround(frames);
  return whole <= 1 ? std::string("Steady: the first frame.") : fmt::format("Steady: {} frames are averaged.", whole);
}

std::string noiseWords(const std::optional<double>& one_frame, const std::optional<double>& average) {
  if (!one_frame || !average) return {};
  const auto words = [](double noise) { return noise < kLeastTold ? fmt::format("less than {:.2f}", 2 * kLeastTold) : fmt::format("{:.2f}", noise); };
  return fmt::format("Their noise moves the distance by ΔE00 {}; that of one frame alone by {}.", words(*average), words(*one_frame));
}

std::string heldWords(const CameraFacts& facts, const CameraHolds& holds) {
  if (!facts.live) return "A film: there is nothing to hold.";
  if (holds == CameraHolds{}) return {};
  return holdWords(holds) + ".";
}

}  // namespace huewright
