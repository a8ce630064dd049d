// What lies in a folder, for choosing a file.
#pragma once

#include "sitting/state.hpp"

namespace huewright {

/// Folders first, then files, each by name; hidden ones are left out. Times are local. What cannot be read is said in `trouble`.
FolderShown readFolder(const std::filesystem::path& folder);

}  // namespace huewright
