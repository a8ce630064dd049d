// A watched folder with small pictures and a judge that only counts, for tests.
#pragma once

#include <atomic>
#include <condition_variable>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <gtest/gtest.h>
#include <map>
#include <memory>
#include <mutex>
#include <sstream>
#include <string>
#include <thread>

#include "photo/photo.hpp"
#include "session/watch_folder.hpp"
#include "support/fixtures.hpp"

namespace huewright::watched {

namespace fs = std::filesystem;
using Kind = WatchEvent::Kind;
using std::chrono::milliseconds;

/// Short, so that tests need not wait; patience is what a test sets.
inline WatchTimes quick(milliseconds patience = milliseconds(10'000)) { return {milliseconds(20), patience, milliseconds(50)}; }

inline std::string contentOf(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// A small picture that differs from that of any other number up to 65535.
inline std::string smallPhoto(int number) {
  const auto bytes = fixtures::png(fixtures::flat({4, 4}, {static_cast<std::uint16_t>(number % 256), static_cast<std::uint16_t>(number / 256), 90}));
  return {bytes.begin(), bytes.end()};
}

inline void put(const fs::path& path, const std::string& bytes) {
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file << bytes;
  if (!file.flush()) throw std::runtime_error("cannot write " + path.string());
}

/// In memory where there is such a place: each verdict is put on the disk, which can take long on a busy one.
class Folder {
 public:
  Folder() : home_(std::getenv("TMPDIR") == nullptr ? "" : std::getenv("TMPDIR")) {
    if (fs::is_directory("/dev/shm")) ::setenv("TMPDIR", "/dev/shm", 1);
    around_ = std::make_unique<fixtures::TempDir>();
    if (home_.empty()) ::unsetenv("TMPDIR");
    else ::setenv("TMPDIR", home_.c_str(), 1);
    fs::create_directory(path());
    fs::create_directory(outside());
  }
  fs::path path() const { return around_->path() / "photos"; }
  /// On the same disk, so that files can be moved from one to the other.
  fs::path outside() const { return around_->path() / "outside"; }
  fs::path operator/(const std::string& name) const { return path() / name; }

 private:
  std::string home_;
  std::unique_ptr<fixtures::TempDir> around_;
};

/// Reads the picture to its end, as judging does, and counts.
struct CountingJudge {
  std::atomic<int> calls = 0;
  std::function<void(const fs::path&)> meanwhile{};  ///< before the picture is read
  std::optional<Problem> problem{};

  JudgePhoto judge() {
    return [this](const fs::path& path, const std::stop_token&) -> Result<PhotoVerdict> {
      ++calls;
      if (meanwhile) meanwhile(path);
      auto photo = Photo::open(path);
      if (!photo) return std::unexpected(photo.error());
      const auto preview = photo->preview(4);
      if (!preview) return std::unexpected(preview.error());
      if (problem) return std::unexpected(*problem);
      const std::string colour = std::to_string(preview->rgb[0] + 256 * preview->rgb[1]);
      return PhotoVerdict{.beside = "colour " + colour + "\n", .line = colour, .there = true};
    };
  }
};

/// The next event; none when a deadline passes, which no test waits for in vain.
inline std::optional<WatchEvent> nextOf(WatchFolder& folder, milliseconds deadline = milliseconds(20'000)) {
  std::stop_source source;
  std::mutex mutex;
  std::condition_variable_any done;
  std::jthread timer([&](const std::stop_token& over) {
    std::unique_lock lock(mutex);
    done.wait_for(lock, over, deadline, [] { return false; });
    if (!over.stop_requested()) source.request_stop();
  });
  auto event = folder.next(source.get_token());
  EXPECT_TRUE(event) << sentence(event.error());
  return event ? std::move(*event) : std::nullopt;
}

/// What comes until nothing is left to do: a last photo gets a name in the folder, whose verdict ends the list (and is not in it). Nobody says that this one is
/// complete (it is a second name of a file elsewhere), so it waits longer than whatever was there before it, and its name comes last.
inline std::vector<WatchEvent> allOf(WatchFolder& watch, const Folder& folder) {
  static int last = 60'000;
  const std::string name = "zzz-" + std::to_string(++last) + ".png";
  put(folder.outside() / name, smallPhoto(last));
  fs::create_hard_link(folder.outside() / name, folder / name);
  std::vector<WatchEvent> events;
  while (true) {
    auto event = nextOf(watch);
    if (!event) {
      ADD_FAILURE() << "the last photo was never judged";
      return events;
    }
    if (event->name == name) return events;
    events.push_back(std::move(*event));
  }
}

inline std::string namesOf(const std::vector<WatchEvent>& events, Kind kind) {
  std::string names;
  for (const WatchEvent& event : events)
    if (event.kind == kind) names += (names.empty() ? "" : " ") + (event.name.empty() ? std::string("-") : event.name);
  return names;
}

}  // namespace huewright::watched
