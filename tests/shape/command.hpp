// A shell command run to its end.
#pragma once

#include <string>

namespace huewright::shape {

struct Ran {
  int exit = -1;          ///< 128 + the signal's number when it was killed
  std::string out, err;
};

/// Runs words with /bin/sh; standard input is empty. Throws std::runtime_error when the shell cannot be started.
Ran runShell(const std::string& words);

}  // namespace huewright::shape
