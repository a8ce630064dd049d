// How long the window takes: until it can draw, until a photo is on show, until its verdict stands there, and for a frame of each page.
//   desk_bench PHOTO
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <string>
#include <thread>
#include <vector>

#include "desk_driver.hpp"
#include "sitting/sitting.hpp"

namespace {

namespace hw = huewright;
using Clock = std::chrono::steady_clock;

double since(Clock::time_point start) { return std::chrono::duration<double, std::milli>(Clock::now() - start).count(); }
void line(const char* name, double ms) { std::printf("%-28s %8.2f %6s\n", name, ms, "-"); }

/// Polls, as the main loop does, until it holds.
template <class Holds>
double until(hw::Sitting& sitting, Clock::time_point start, Holds&& holds) {
  while (!holds(sitting.state()) && since(start) < 60000) {
    std::this_thread::sleep_for(std::chrono::microseconds(200));
    sitting.poll();
  }
  return since(start);
}

/// The median time of a frame.
double frame(hw::fixtures::DeskDriver& driver) {
  std::vector<double> times;
  for (int i = 0; i < 200; ++i) {
    const auto start = Clock::now();
    driver.frame();
    times.push_back(since(start));
  }
  std::ranges::nth_element(times, times.begin() + 100);
  return times[100];
}

}  // namespace

int main(int count, char** words) {
  if (count < 2) {
    std::fprintf(stderr, "desk_bench PHOTO\n");
    return 2;
  }
  auto start = Clock::now();
  auto sitting = hw::Sitting::open({HUEWRIGHT_SOURCE_DIR "/calib", HUEWRIGHT_SOURCE_DIR "/sample-images", {}});
  if (!sitting) return 5;
  line("desk-sitting-ms", since(start));
  start = Clock::now();
  hw::fixtures::DeskDriver driver(1920, 1080, 1, true);
  line("desk-type-and-first-frame-ms", since(start));

  start = Clock::now();
  sitting->apply(hw::act::OpenPhotos{{words[1]}, hw::PhotoRole::First});
  line("desk-photo-preview-ms", until(*sitting, start, [](const hw::SittingState& s) { return !s.photos.empty(); }));
  line("desk-photo-looked-for-mat-ms", until(*sitting, start, [](const hw::SittingState& s) { return !s.judging; }));
  start = Clock::now();
  sitting->apply(hw::act::OpenPhotos{{HUEWRIGHT_SOURCE_DIR "/sample-images/on-the-mat.jpg"}, hw::PhotoRole::First});
  line("desk-mat-verdict-ms", until(*sitting, start, [](const hw::SittingState& s) { return s.judged.has_value(); }));
  sitting->apply(hw::act::Demo{2});
  sitting->settle();
  sitting->apply(hw::act::Demo{3});
  sitting->settle();
  driver.state = sitting->state();
  for (const auto& [name, page] : {std::pair{"desk-frame-panel-ms", hw::desk::Page::Panel}, std::pair{"desk-frame-mixes-ms", hw::desk::Page::Mixes}, std::pair{"desk-frame-camera-ms", hw::desk::Page::Camera},
                                   std::pair{"desk-frame-room-ms", hw::desk::Page::Room}}) {
    driver.view().look.page = page;
    driver.frames(3);
    line(name, frame(driver));
  }
  return 0;
}
