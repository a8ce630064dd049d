// A file's name cut in its middle, so that its beginning, its number and its ending are still seen.
#pragma once

#include <string>

struct ImFont;

namespace huewright::desk {

/// In: UTF-8. Out: the name, or as much of it round an ellipsis as fits into that width (screen pixels) at the font's own size; never cut inside a letter.
std::string shortName(const std::string& name, ImFont* font, float width);

}  // namespace huewright::desk
