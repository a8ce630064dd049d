// Where the program keeps what belongs to the person who uses it.
#pragma once

#include <filesystem>

#include "base/problem.hpp"

namespace huewright {

/// $XDG_DATA_HOME/huewright, else ~/.local/share/huewright. A path that is not absolute counts as none. Nothing is created.
/// Source: XDG Base Directory Specification 0.8. Errors: NoUserFolder.
Result<std::filesystem::path> userDataFolder();

/// The kept grey in it, whether there is one or not. Errors: NoUserFolder.
Result<std::filesystem::path> keptGreyPath();

/// Where the window keeps the last sitting: $XDG_STATE_HOME/huewright/sitting.json, else below ~/.local/state. Nothing is created. Errors: NoUserFolder.
Result<std::filesystem::path> sittingPath();

/// Where stills of a live camera go unless another place is chosen: huewright-stills in the folder for pictures, which is $XDG_PICTURES_DIR, else what ~/.config/user-dirs.dirs says
/// (xdg-user-dirs; its form from memory), else ~/Pictures if that is there; else in the home folder. Nothing is created. Errors: NoUserFolder.
Result<std::filesystem::path> stillsPath();

}  // namespace huewright
