// Small text files that people give: series, tints.
#pragma once

#include <filesystem>
#include <string>

#include "base/problem.hpp"

namespace huewright {

/// The whole file, at most 4 MB. Errors: `code`, with a sentence that names the file, whatever is wrong with it.
Result<std::string> readTextFile(const std::filesystem::path& path, Code code);

}  // namespace huewright
