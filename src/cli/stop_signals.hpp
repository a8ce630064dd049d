// Ctrl-C as a request to stop.
#pragma once

#include <csignal>
#include <stop_token>
#include <thread>

namespace huewright {

/// While it lives, Ctrl-C (SIGINT) and SIGTERM ask for a stop instead of ending the program. One at a time.
class StopSignals {
 public:
  StopSignals();
  StopSignals(const StopSignals&) = delete;
  StopSignals& operator=(const StopSignals&) = delete;
  ~StopSignals();

  std::stop_token token() const { return stop_.get_token(); }

 private:
  std::stop_source stop_;
  struct sigaction interrupt_before_ {}, terminate_before_ {};
  std::thread listener_;
};

}  // namespace huewright
