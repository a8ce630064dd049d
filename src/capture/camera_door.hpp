// The door between the program and the module that holds the video library (src/frames): plain C on both sides. No exceptions and no C++ types go through it.
#pragma once

#include <cstddef>
#include <cstdint>

extern "C" {

/// What came of reading. Waiting: nothing yet, ask again. Lost: a live camera was unplugged or broke down. NoRoom: HuewrightRoom gave none.
enum HuewrightRead : int { HuewrightGot = 0, HuewrightEnd = 1, HuewrightWaiting = 2, HuewrightLost = 3, HuewrightNoRoom = 4 };

/// Whether a setting stays as it is. The numbers are those of huewright::Hold.
enum HuewrightHeld : int { HuewrightFree = 0, HuewrightStays = 1, HuewrightRefused = 2, HuewrightNoSuch = 3 };

struct HuewrightCameraFacts {
  std::int32_t width, height;  ///< of its frames, pixels
  double rate;                 ///< frames a second, 0 when it does not tell
  std::int32_t compressed;     ///< 1: JPEG pictures on their way
  std::int32_t live;           ///< 1: a camera, 0: a file
};

struct HuewrightCameraHolds {
  std::int32_t exposure, white_balance, focus;  ///< HuewrightHeld
};

/// Gives room for width * height pixels of three bytes, or null when there is none. Both are 0 for a frame that has no pixels;
/// what is given is then not used. Asked for a second time when a picture turns out to be none half-way: the last answer counts.
typedef std::uint8_t* (*HuewrightRoom)(void* owner, std::int32_t width, std::int32_t height);

/// In which steps a JPEG picture keeps the mean of a block, codes of 8 bits: the first entries of its tables over 8. All zero when it was not such a picture, or is not kept as luma and
/// colour.
struct HuewrightSteps {
  double luma, blue, red;
  std::int32_t subsampled;  ///< 1: colour is kept at less than full resolution
};

struct HuewrightCameraDoor {
  std::uint32_t version;  ///< HuewrightDoorVersion of the module

  /// Null when it cannot be opened: then a sentence without its full stop, ended by a zero byte, lies in `reason`, cut off where its room ends.
  void* (*open)(const char* source, char* reason, std::size_t reason_bytes);

  /// The next frame as R, G, B into the room that is asked for. A live camera is waited for so many milliseconds at most, its first frame for ten seconds.
  /// A file is never waited for. In: wait at least 1. Out: HuewrightRead.
  std::int32_t (*read)(void* camera, std::int32_t wait_ms, HuewrightRoom room, void* owner);

  void (*facts)(void* camera, HuewrightCameraFacts* facts);
  /// Of the frame that was read last.
  void (*steps)(void* camera, HuewrightSteps* steps);
  void (*hold)(void* camera, HuewrightCameraHolds* holds);
  void (*close)(void* camera);
};

/// The one function that the module shows, named HuewrightDoorName.
typedef const HuewrightCameraDoor* (*HuewrightOpenDoor)();

}  // extern "C"

/// Goes up with every change of what is above: program and module must be of one make.
inline constexpr std::uint32_t HuewrightDoorVersion = 2;
inline constexpr const char* HuewrightDoorName = "huewright_camera_door";
inline constexpr const char* HuewrightModuleFile = "huewright-frames.so";
