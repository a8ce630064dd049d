// A camera that gives one frame after the other, whatever is behind it.
#pragma once

#include <memory>
#include <optional>
#include <stop_token>
#include <string>

#include "base/problem.hpp"
#include "capture/frame.hpp"

namespace huewright {

/// Whether a setting that a camera changes by itself was made to stay. NoSuch: files, or a camera that does not have it.
enum class Hold { Free, Held, Refused, NoSuch };

struct CameraHolds {
  Hold exposure = Hold::Free, white_balance = Hold::Free, focus = Hold::Free;
  bool operator==(const CameraHolds&) const = default;
};

struct CameraFacts {
  std::string name;          ///< as it was asked for: "0", "/dev/video0", a file's path
  Size size{};               ///< of its frames, pixels
  double rate = 0;           ///< frames a second as it tells, 0 when it does not
  bool compressed = false;   ///< frames are JPEG pictures on their way
  bool live = false;         ///< a camera, not a file: it may go away and come back, and its settings can be held
};

class Camera {
 public:
  virtual ~Camera() = default;

  virtual const CameraFacts& facts() const = 0;

  /// The next frame. Nothing at the end of a file, or when a stop was asked for. A frame that came and could not be unpacked has no pixels.
  /// Errors: CameraLost when a live camera gave none for two seconds (ten before its first one), or was unplugged; CameraUnusable when a file
  /// cannot be read on; OutOfMemory.
  virtual Result<std::optional<Frame>> next(const std::stop_token& stop) = 0;

  /// Makes exposure, white balance and focus stay as they are now, so far as the driver allows. Closing the camera gives it its automatics
  /// back, as it would keep these settings for the next program.
  virtual CameraHolds hold() = 0;
};

/// Opens a camera by number or device ("0", "/dev/video1"), a picture sequence ("frames/img_%03d.png"), or a file of Motion JPEG (.avi) or FFV1 (.mkv).
/// Loads the module that holds the video library the first time it is called: from the folder $HUEWRIGHT_MODULES if set, else from ../lib/huewright beside
/// the running program's folder. It stays loaded until the program ends. Frames of a film are timed by its rate, those of a picture sequence as 30 a second.
/// Errors: CameraUnusable, ModuleMissing.
Result<std::unique_ptr<Camera>> openCamera(const std::string& source);

}  // namespace huewright
