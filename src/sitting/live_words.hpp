// A live camera's state in plain sentences.
#pragma once

#include <optional>
#include <string>

#include "capture/camera_feed.hpp"
#include "session/live_judge.hpp"

namespace huewright {

/// "Steady: 42 frames are averaged.", "It moves: hold camera and panel still. Moving frames are left out.", "Looking for panel and card."
std::string stateWords(LiveState state, double frames);

/// What noise there is left in the distance; empty before it is known.
std::string noiseWords(const std::optional<double>& one_frame, const std::optional<double>& average);

/// What the camera's exposure, white balance and focus do; of a film, that there is nothing to hold. Empty before the camera was asked.
std::string heldWords(const CameraFacts& facts, const CameraHolds& holds);

}  // namespace huewright
