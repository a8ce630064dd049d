// The module's one function. Whatever the video library throws ends here.
#include <algorithm>
#include <cstring>
#include <exception>
#include <string>

#include "capture/camera_door.hpp"
#include "frames/video_source.hpp"

namespace huewright::frames {
namespace {

VideoSource& sourceBehind(void* camera) { return *static_cast<VideoSource*>(camera); }

void tellReason(const std::string& text, char* reason, std::size_t bytes) {
  if (reason == nullptr || bytes == 0) return;
  const std::size_t length = std::min(text.size(), bytes - 1);
  std::memcpy(reason, text.data(), length);
  reason[length] = '\0';
}

void* openSource(const char* source, char* reason, std::size_t bytes) {
  try {
    auto opened = VideoSource::open(source);
    if (opened) return opened->release();
    tellReason(opened.error(), reason, bytes);
  } catch (const std::exception&) {
    tellReason("\"" + std::string(source) + "\" cannot be opened: the video library gave up on it. Unplug the camera and plug it in again, or make the film again", reason, bytes);
  }
  return nullptr;
}

std::int32_t readSource(void* camera, std::int32_t wait_ms, HuewrightRoom room, void* owner) {
  try {
    return sourceBehind(camera).read(wait_ms, room, owner);
  } catch (const std::bad_alloc&) {
    return HuewrightNoRoom;
  } catch (const std::exception&) {  // an unplugged camera; a film that is damaged from here on
    return HuewrightLost;
  }
}

void factsOfSource(void* camera, HuewrightCameraFacts* facts) {
  try {
    *facts = sourceBehind(camera).facts();
  } catch (const std::exception&) {
    *facts = {};
  }
}

void stepsOfSource(void* camera, HuewrightSteps* steps) { *steps = sourceBehind(camera).steps(); }

void holdSource(void* camera, HuewrightCameraHolds* holds) {
  try {
    *holds = sourceBehind(camera).hold();
  } catch (const std::exception&) {
    *holds = {HuewrightRefused, HuewrightRefused, HuewrightRefused};
  }
}

void closeSource(void* camera) {
  try {
    delete &sourceBehind(camera);
  } catch (const std::exception&) {  // unplugged: there is nothing left to give back
    return;
  }
}

}  // namespace
}  // namespace huewright::frames

extern "C" __attribute__((visibility("default"))) const HuewrightCameraDoor* huewright_camera_door() {
  using namespace huewright::frames;
  static const HuewrightCameraDoor kDoor{HuewrightDoorVersion, openSource, readSource, factsOfSource, stepsOfSource, holdSource, closeSource};
  return &kDoor;
}
