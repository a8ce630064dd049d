#include "frames/camera_settings.hpp"

#include <cmath>

namespace huewright::frames {
namespace {

// Source: Linux, videodev2.h and v4l2-controls.h: V4L2_EXPOSURE_MANUAL; the other two are switches.
constexpr double kExposureByHand = 1;
constexpr double kSwitchedOff = 0;

/// Whether the camera tells afterwards what it was told. All these values are whole numbers.
bool stays(CameraSettings& camera, Setting setting, double wanted) {
  if (!camera.set(setting, wanted)) return false;
  const auto now = camera.value(setting);
  return now && std::abs(*now - wanted) < 0.5;
}

HuewrightHeld holdOne(CameraSettings& camera, Setting automatic, double off, Setting value) {
  const auto mode = camera.value(automatic);
  const auto chosen = camera.value(value);
  if (!mode && !chosen) return HuewrightNoSuch;
  if (mode && !stays(camera, automatic, off)) return HuewrightRefused;
  if (chosen && !stays(camera, value, *chosen)) return HuewrightRefused;
  return HuewrightStays;
}

}  // namespace

HuewrightCameraHolds holdSettings(CameraSettings& camera) {
  HuewrightCameraHolds holds{};
  holds.exposure = holdOne(camera, Setting::AutoExposure, kExposureByHand, Setting::Exposure);
  holds.white_balance = holdOne(camera, Setting::AutoWhiteBalance, kSwitchedOff, Setting::Temperature);
  holds.focus = holdOne(camera, Setting::AutoFocus, kSwitchedOff, Setting::Focus);
  return holds;
}

AutomaticSettings automaticSettings(CameraSettings& camera) {
  return {camera.value(Setting::AutoExposure), camera.value(Setting::AutoWhiteBalance), camera.value(Setting::AutoFocus)};
}

bool giveBack(CameraSettings& camera, const AutomaticSettings& before) {
  bool taken = true;
  if (before.exposure) taken = camera.set(Setting::AutoExposure, *before.exposure) && taken;
  if (before.white_balance) taken = camera.set(Setting::AutoWhiteBalance, *before.white_balance) && taken;
  if (before.focus) taken = camera.set(Setting::AutoFocus, *before.focus) && taken;
  return taken;
}

}  // namespace huewright::frames
