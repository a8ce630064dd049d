// The whole command line as a function, so that tests can call it.
#pragma once

#include <string>
#include <vector>

namespace huewright {

struct Outcome {
  int exit = 0;
  std::string out, err;
};

/// Runs the words of a command line (without the program's name). `blocks`: the terminal shows 24-bit colour.
Outcome run(const std::vector<std::string>& words, bool blocks);

}  // namespace huewright
