// What a live camera shows and what is judged of it, for a window.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "capture/frame.hpp"
#include "session/live_judge.hpp"
#include "sitting/judged_shown.hpp"
#include "sitting/picture.hpp"

namespace huewright {

/// The newest, and nothing before it. Told by a thread of its own.
struct LiveNow {
  std::shared_ptr<const Frame> frame;      ///< at full size: what a still is made of
  PictureRef picture;                      ///< the same to look at, at most 1920 pixels wide
  Regions regions;                         ///< where things lie in it
  LiveState state = LiveState::Looking;
  std::string state_words;                 ///< "Steady: 42 frames are averaged."
  std::optional<JudgedShown> judged;       ///< of the frames averaged until now
  double frames = 0;                       ///< averaged: so many equally weighted ones have as little noise
  std::optional<double> frame_noise, noise;   ///< as in LiveVerdict
  std::string noise_words;                 ///< "Their noise moves the distance by ΔE00 0.02; that of one frame by 0.11."; empty before it is known
  std::string held;                        ///< what the camera lets be held; empty before it was asked
  std::string places;                      ///< by what panel and card are found
  bool by_marks = false;                   ///< by the marks of a photo, not by the mat
  std::string trouble;                     ///< why there is no verdict, or what is wrong with the camera
  bool away = false;                       ///< it was unplugged, and is waited for
  bool over = false;                       ///< the film is at its end, the camera cannot be used, or it was stopped
};

struct LiveShown {
  bool running = false;
  std::string source;                      ///< as it was asked for last: "0", "/dev/video1", a film; kept for the next start
  bool by_marks = false;                   ///< the marks of the shown photo are wanted rather than the mat
  std::vector<std::string> cameras;        ///< that could be started
  std::filesystem::path stills;            ///< where stills go
  LiveNow now;
};

}  // namespace huewright
