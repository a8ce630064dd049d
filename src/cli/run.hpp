// The whole command line as a function, so that tests can call it.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace huewright {

struct Outcome {
  int exit = 0;
  std::string out, err;
};

/// Where a command that runs on says what it has to say while it runs: standard output, and what is for people alone. False when it cannot be written. Where
/// one is empty, the text goes into the outcome.
struct Outlet {
  std::function<bool(std::string_view)> out{}, err{};
};

/// Runs the words of a command line (without the program's name). `blocks`: the terminal shows 24-bit colour.
Outcome run(const std::vector<std::string>& words, bool blocks, const Outlet& outlet = {});

}  // namespace huewright
