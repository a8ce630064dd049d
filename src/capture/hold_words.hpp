// What a camera lets be held, as a person is told.
#pragma once

#include <string>

#include "capture/camera.hpp"

namespace huewright {

/// Whether something that the camera changes by itself could not be made to stay. A focus that it does not have is fixed, and so held.
bool somethingIsFree(const CameraHolds& holds);

/// One plain sentence without its full stop, such as "Exposure and focus are held; this camera does not let its white balance be held, so keep the light as it is".
std::string holdWords(const CameraHolds& holds);

}  // namespace huewright
