#include "cli/stop_signals.hpp"

#include <atomic>
#include <cerrno>
#include <fcntl.h>
#include <unistd.h>

namespace huewright {
namespace {

std::atomic<int> signal_pipe{-1};  // where the handler writes

void tellListener(char word) {
  const int before = errno;
  if (const int pipe = signal_pipe; pipe >= 0) (void)!::write(pipe, &word, 1);
  errno = before;
}

/// Only what a signal handler may do (signal-safety(7)).
void onStopSignal(int) { tellListener('s'); }

}  // namespace

StopSignals::StopSignals() {
  int ends[2] = {-1, -1};
  if (::pipe2(ends, O_CLOEXEC) != 0) return;  // the signals then end the program as ever
  signal_pipe = ends[1];
  listener_ = std::thread([this, from = ends[0]] {
    for (char word = 0;;) {
      const ssize_t got = ::read(from, &word, 1);
      if (got < 0 && errno == EINTR) continue;
      if (got != 1 || word == 'q') break;
      stop_.request_stop();
    }
    ::close(from);
  });
  struct sigaction action {};
  action.sa_handler = onStopSignal;
  action.sa_flags = SA_RESTART;
  sigemptyset(&action.sa_mask);
  ::sigaction(SIGINT, &action, &interrupt_before_);
  ::sigaction(SIGTERM, &action, &terminate_before_);
}

StopSignals::~StopSignals() {
  if (!listener_.joinable()) return;
  ::sigaction(SIGINT, &interrupt_before_, nullptr);
  ::sigaction(SIGTERM, &terminate_before_, nullptr);
  tellListener('q');
  listener_.join();
  ::close(signal_pipe.exchange(-1));
}

}  // namespace huewright
