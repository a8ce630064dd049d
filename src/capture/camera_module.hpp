// Finding and loading the module that holds the video library.
#pragma once

#include <filesystem>
#include <string>

#include "base/problem.hpp"
#include "capture/camera_door.hpp"

namespace huewright {

/// The module's door, loaded from the folder $HUEWRIGHT_MODULES if set, else from ../lib/huewright beside the running program's folder. Loaded once; may be
/// called from any thread. Errors: ModuleMissing.
Result<const HuewrightCameraDoor*> cameraModule();

/// The same from that file, which stays loaded. Errors: ModuleMissing, as one sentence that says how to get it: there is none, a library that it needs is not
/// installed, or it belongs to another Huewright.
Result<const HuewrightCameraDoor*> loadCameraModule(const std::filesystem::path& file);

/// What to do when the system could not load the module, from what it said of it (dlerror): without its full stop.
std::string whyNotLoaded(const std::string& file, const std::string& said);

}  // namespace huewright
