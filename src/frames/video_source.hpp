// A camera or a film through OpenCV's videoio.
#pragma once

#include <expected>
#include <memory>
#include <string>

#include "capture/camera_door.hpp"

namespace huewright::frames {

class VideoSource {
 public:
  /// The way to read it is always named, never left to the library: V4L2 for devices, asked for Motion JPEG of 1920 x 1080 at 30 frames a second with one frame
  /// kept; FFmpeg for films. Motion JPEG, of either, is handed over as it is and unpacked by unpackJpeg. Pictures of a sequence are read one by one.
  /// Errors: a sentence without its full stop.
  static std::expected<std::unique_ptr<VideoSource>, std::string> open(const std::string& source);
  /// A camera that was held is given its automatics back; one that was pulled out, when it is opened again.
  ~VideoSource();
  VideoSource(const VideoSource&) = delete;
  VideoSource& operator=(const VideoSource&) = delete;

  /// As the door's read. A picture of a sequence that is there but cannot be read is a frame without pixels. May throw what the library throws, as for a camera that was pulled out.
  HuewrightRead read(int wait_ms, HuewrightRoom room, void* owner);
  HuewrightSteps steps() const;
  HuewrightCameraFacts facts() const;
  HuewrightCameraHolds hold();

 private:
  struct State;
  explicit VideoSource(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

}  // namespace huewright::frames
