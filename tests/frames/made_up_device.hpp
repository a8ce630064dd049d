// A made-up V4L2 camera, for what no machine without one can show: the calls that the video library makes to the operating system are answered here.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace huewright::frames {

/// What the device is and does; tests change it while it runs. Source: Linux, Documentation/userspace-api/media/v4l, and how drivers of webcams behave (from memory).
struct MadeUpDevice {
  bool there = false;                                  ///< plugged in; when it no longer is, every call fails as it does then
  bool permitted = true;
  bool in_use = false;                                 ///< by another program
  bool sends = true;                                   ///< pictures; else it lies there and says nothing
  std::uint32_t only_format = 0;                       ///< V4L2_PIX_FMT_…, whatever is asked for; 0: Motion JPEG or YUYV
  int width = 96, height = 64;                         ///< whatever is asked for
  std::vector<std::vector<std::uint8_t>> pictures;     ///< as it sends them, over and over
  std::map<std::uint32_t, std::int32_t> controls;      ///< V4L2_CID_…, those that it has
  std::vector<std::uint32_t> refused;                  ///< controls that cannot be set

  std::vector<std::string> said;                       ///< of what it was told: "open", "format MJPG 1920 x 1080", "close"
};

/// Answers under this name. Opened once at a time.
inline constexpr const char* kMadeUpDevice = "/dev/video97";
MadeUpDevice& madeUpDevice();

}  // namespace huewright::frames
