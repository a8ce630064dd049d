// A verdict that goes on: frames of a live camera, followed while it shakes a little, averaged while it is still.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <stop_token>
#include <string>

#include "photo/frame_stack.hpp"
#include "session/session.hpp"

namespace huewright {

/// What became of the last frame.
enum class LiveState {
  Looking,  ///< nothing is laid out yet: the mat is looked for
  Moving,   ///< the camera or what lies before it moves: the frame is left out
  Steady,   ///< it is averaged with those before
};

/// "looking", "moving", "steady".
std::string_view liveStateName(LiveState state);

struct LiveVerdict {
  LiveState state = LiveState::Looking;
  std::shared_ptr<const JudgeReport> report;   ///< of the frames averaged until now; none: problem says why
  std::optional<Problem> problem;              ///< of the photo (readShot); PlacesLost when a camera with places given by a person was turned elsewhere, or gives pictures of another size; LiveMoving before the first still frame
  double frames = 0;                           ///< so many equally weighted ones have as little noise
  std::optional<double> frame_noise;           ///< standard deviation of one frame's difference from the card, ΔE00, of the report's main panel, from four verdicts on
  std::optional<double> noise;                 ///< the same of the average: its part of the interval
  Regions regions;                             ///< where things lie in the last frame
};

/// Takes one frame after the other and judges their average by the same code as a photo. On the mat things are found by themselves, and again when the camera was moved; places that a
/// person gave are carried along. What changes in the light or before the camera begins the average anew.
class LiveJudge {
 public:
  /// In: a session that outlives this; the request, whose photo is the camera's name. Errors: of Session::check; BadChoice for what needs a second photo.
  static Result<LiveJudge> begin(const Session& session, JudgeRequest request);
  LiveJudge(LiveJudge&&) noexcept;
  LiveJudge& operator=(LiveJudge&&) noexcept;
  ~LiveJudge();

  /// Takes a frame in: R, G, B interleaved, 8 bits a channel; how it was compressed. A frame of another size begins anew; places that a person gave do not hold in it. Takes about 15 ms for 1920 × 1080.
  LiveState take(std::span<const std::uint8_t> rgb, Size size, const FrameRounding& rounding = {});

  /// The verdict on what was taken in. In: at least one frame was.
  LiveVerdict judge(const std::stop_token& stop = {});

  /// Forgets the average and what was found. Places that a person gave go on holding for the scene that they were given for.
  void beginAnew();

 private:
  struct Inside;
  explicit LiveJudge(std::unique_ptr<Inside> in);
  std::unique_ptr<Inside> in_;
};

}  // namespace huewright
