// The core's sentences name the options of the command line; in a window they name its keys and fields.
#pragma once

#include <string>

#include "base/caution.hpp"
#include "base/problem.hpp"

namespace huewright {

/// The same sentence without any option's name: "mark the panel (P)" for "say where it is with --panel X,Y,WIDTH,HEIGHT".
std::string windowWords(std::string sentence);

std::string windowWords(const Problem& problem);
std::string windowWords(const Caution& caution);

}  // namespace huewright
