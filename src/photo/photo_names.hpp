// Which files are photos, by their names alone.
#pragma once

#include <string_view>

namespace huewright {

/// Whether the name ends as one of the kinds that Photo reads does (.jpg, .heic, .dng, the cameras' own raw files), in capitals or not.
bool hasPhotoEnding(std::string_view name);

}  // namespace huewright
