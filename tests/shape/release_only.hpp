// tests/release_only.txt: what the sanitizer run leaves out. Its rules look at text alone, so that they can be shown to fail on made-up text.
#pragma once

#include "shape/rules.hpp"

namespace huewright::shape {

/// A line that leaves out what is not there, or says no reason, or that CMake would misread. `tests`: the project's test files.
Complaints leftOutWrongly(const std::string& list, const std::vector<SourceFile>& tests);

/// The paths without the test files that the list leaves out as a whole.
std::vector<std::string> withoutLeftOut(const std::string& list, const std::vector<std::string>& paths);

}  // namespace huewright::shape
