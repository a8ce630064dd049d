#include "cli/stop_signals.hpp"

#include <chrono>
#include <condition_variable>
#include <gtest/gtest.h>
#include <mutex>

namespace huewright {
namespace {

/// Waits for the stop itself; the time is a deadline.
bool stops(const std::stop_token& token) {
  std::mutex mutex;
  std::condition_variable_any asked;
  std::unique_lock lock(mutex);
  asked.wait_for(lock, token, std::chrono::seconds(20), [] { return false; });
  return token.stop_requested();
}

TEST(StopSignals, CtrlCAndTermAskForAStop) {
  for (const int signal : {SIGINT, SIGTERM}) {
    const StopSignals signals;
    EXPECT_FALSE(signals.token().stop_requested());
    ASSERT_EQ(std::raise(signal), 0);
    EXPECT_TRUE(stops(signals.token())) << signal;
  }
}

TEST(StopSignals, WhatWasThereBeforeIsThereAgain) {
  static volatile std::sig_atomic_t seen;
  seen = 0;
  struct sigaction mine {}, before {};
  mine.sa_handler = [](int) { seen = seen + 1; };
  ::sigaction(SIGINT, &mine, &before);
  { const StopSignals signals; }
  std::raise(SIGINT);
  EXPECT_EQ(seen, 1);
  ::sigaction(SIGINT, &before, nullptr);
}

}  // namespace
}  // namespace huewright
