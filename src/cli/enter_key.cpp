#include "cli/enter_key.hpp"

#include <algorithm>
#include <array>
#include <poll.h>
#include <sys/ioctl.h>
#include <unistd.h>

namespace huewright {

bool EnterKey::pressed() {
  bool enter = false;
  while (!ended_) {
    pollfd ready{descriptor_, POLLIN, 0};
    if (::poll(&ready, 1, 0) <= 0) break;
    if ((ready.revents & (POLLIN | POLLHUP)) == 0) {
      ended_ = true;
      break;
    }
    std::array<char, 256> text{};
    const ssize_t length = ::read(descriptor_, text.data(), text.size());
    if (length <= 0) ended_ = true;
    else enter = enter || std::find(text.begin(), text.begin() + length, '\n') != text.begin() + length;
  }
  return enter;
}

std::size_t terminalColumns() {
  if (::isatty(STDOUT_FILENO) == 0) return 0;
  winsize size{};
  return ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0 ? size.ws_col : 80;
}

}  // namespace huewright
