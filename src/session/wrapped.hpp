// Text broken into lines.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace huewright {

/// Text wrapped to a width, each line indented, those after the first by `hang` more; words longer than a line stand alone. Counts
/// code points, not bytes.
std::string wrapped(std::string_view text, std::size_t width, std::size_t indent, std::size_t hang = 0);

}  // namespace huewright
