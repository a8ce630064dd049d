// What a text says.
#pragma once

#include <string>

namespace huewright {

inline bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace huewright
