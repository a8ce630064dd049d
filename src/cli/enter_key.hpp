// Whether somebody pressed Enter while the program does something else.
#pragma once

#include <cstddef>

namespace huewright {

/// Reads what stands ready on a terminal, waits for nothing. True when there was a line's end in it. At the end of the input, and where it is no terminal or pipe, always false. In: a file
/// descriptor.
class EnterKey {
 public:
  explicit EnterKey(int descriptor) : descriptor_(descriptor) {}
  bool pressed();

 private:
  int descriptor_;
  bool ended_ = false;
};

/// Columns of the terminal that standard output is; 0 when it is none, 80 when it does not tell.
std::size_t terminalColumns();

}  // namespace huewright
