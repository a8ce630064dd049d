// Making a camera's settings stay as they are.
#pragma once

#include <optional>

#include "capture/camera_door.hpp"

namespace huewright::frames {

enum class Setting { AutoExposure, Exposure, AutoWhiteBalance, Temperature, AutoFocus, Focus };

/// What a camera lets one read and set, in its own units.
class CameraSettings {
 public:
  virtual ~CameraSettings() = default;
  /// Nothing when the camera does not have it.
  virtual std::optional<double> value(Setting setting) = 0;
  /// False when the driver refuses.
  virtual bool set(Setting setting, double value) = 0;
};

/// Exposure, white balance and focus are made to stay at what the camera has chosen by itself, each checked by reading it back: what the automatic chose
/// is read first, as some drivers go to a value of their own once it is off. Refused when the driver says no, or reading back differs; NoSuch when the
/// camera has neither the automatic nor the value. A camera that has the automatic alone, and lets it be turned off, counts as held.
HuewrightCameraHolds holdSettings(CameraSettings& camera);

/// What is switched to automatic, as it is before holding: so that it can be given back, as cameras keep their settings for whoever uses them next.
struct AutomaticSettings {
  std::optional<double> exposure, white_balance, focus;  ///< nothing when the camera does not have it
};
AutomaticSettings automaticSettings(CameraSettings& camera);

/// Switches them back. False when the camera does not take them all, as one that was pulled out; what it refuses stays as it is.
bool giveBack(CameraSettings& camera, const AutomaticSettings& before);

}  // namespace huewright::frames
