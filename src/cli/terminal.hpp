// What the terminal can show.
#pragma once

#include <string>

#include "colour/lab.hpp"

namespace huewright {

/// True when standard output is a terminal that says it shows 24-bit colour (COLORTERM is "truecolor" or "24bit") and NO_COLOR is not set.
bool showsTrueColour();

/// Six cells in a colour, by 24-bit escape codes (ISO 8613-6).
std::string colourBlock(const Lab<D50>& lab);

}  // namespace huewright
