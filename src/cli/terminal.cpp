#include "cli/terminal.hpp"

#include <cstdlib>
#include <string_view>
#include <unistd.h>

#include "colour/rgb.hpp"

namespace huewright {

bool showsTrueColour() {
  if (isatty(STDOUT_FILENO) == 0 || std::getenv("NO_COLOR") != nullptr) return false;
  const char* says = std::getenv("COLORTERM");
  return says != nullptr && (std::string_view(says) == "truecolor" || std::string_view(says) == "24bit");
}

std::string colourBlock(const Lab<D50>& lab) {
  const auto rgb = toSrgb8(lab);
  return "\x1b[48;2;" + std::to_string(rgb[0]) + ";" + std::to_string(rgb[1]) + ";" + std::to_string(rgb[2]) + "m      \x1b[0m";
}

}  // namespace huewright
