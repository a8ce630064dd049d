// What the operating system tells of a folder while something is copied into it. Linux: inotify(7).
#pragma once

#include <chrono>
#include <filesystem>
#include <stop_token>
#include <string>
#include <vector>

namespace huewright {

/// A name in the folder that is new or has changed.
struct FolderNotice {
  std::string name;
  bool complete = false;             ///< it was closed after writing, or moved in whole
};

struct FolderNews {
  std::vector<FolderNotice> names;   ///< in the order they came
  bool missed = false;               ///< more happened than the system could keep: look through the folder
  bool gone = false;                 ///< the folder was removed, moved or unmounted; it is followed no longer
};

/// Follows one folder at a time, not the folders in it. Where the system has no notices left to give (network folders, too many programs that watch), it
/// only waits: whoever uses it looks through the folder from time to time as well.
class FolderNotices {
 public:
  FolderNotices();
  FolderNotices(const FolderNotices&) = delete;
  FolderNotices& operator=(const FolderNotices&) = delete;
  ~FolderNotices();

  /// From now on this folder, in place of another one. False when no notices of it can be had.
  bool follow(const std::filesystem::path& folder);

  /// Waits until something happens, the time is over or a stop is asked for; then all that has happened since the last time.
  FolderNews wait(std::chrono::milliseconds most, const std::stop_token& stop);

 private:
  void read(FolderNews& news);

  int notices_ = -1, wake_ = -1, folder_ = -1;
};

}  // namespace huewright
