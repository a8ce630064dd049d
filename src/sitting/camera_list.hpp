// Which cameras there are to choose from.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace huewright {

/// The names by which openCamera knows the cameras of a folder of devices, such as /dev: "0" for its video0, and so on by number; then other names that begin with "video", by their whole path.
/// A camera may stand there more than once, as drivers make a second device for what goes with its pictures.
std::vector<std::string> camerasIn(const std::filesystem::path& devices);

}  // namespace huewright
