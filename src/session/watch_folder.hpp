// A folder into which a phone's sync or a card reader drops photos: each is judged once, when it is complete.
#pragma once

#include <chrono>
#include <cstdint>
#include <deque>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <stop_token>
#include <string>
#include <utility>

#include "base/caution.hpp"
#include "base/problem.hpp"
#include "capture/folder_notices.hpp"
#include "session/judged_list.hpp"
#include "session/session.hpp"

namespace huewright {

/// What was found out about one photo.
struct PhotoVerdict {
  std::string beside;                ///< the text of the file beside the photo, with a final newline
  std::string line;                  ///< what is printed
  bool there = false;                ///< surely within the tolerance
  std::shared_ptr<const JudgeReport> report{};  ///< the numbers behind it; may be empty
  /// Keeps the reading elsewhere (a series); may be empty. Called once it is sure that the photo did not change while it was judged.
  std::function<Result<std::optional<Caution>>()> keep{};
};

/// Judges one photo. A problem of the photo itself is told and the watch goes on; any other one ends it (ofThePhoto).
using JudgePhoto = std::function<Result<PhotoVerdict>(const std::filesystem::path&, const std::stop_token&)>;

/// Whether a problem lies in the photo and not in what was asked, in the files that were named with it, or in the machine.
bool ofThePhoto(Code code);

struct WatchTimes {
  std::chrono::milliseconds settle{1000};    ///< a file of which nobody said that it is closed is complete when it has not changed for so long
  std::chrono::milliseconds patience{5000};  ///< a file that cannot be read to its end may still grow; it is given up when it has not changed for so long
  std::chrono::milliseconds look{2000};      ///< how often the folder is looked through whatever the system tells
};

struct WatchEvent {
  enum class Kind {
    Judged,      ///< verdict; caution: what keeping it found
    Unusable,    ///< problem
    SamePhoto,   ///< its content has a verdict under another name
    FolderAway,  ///< caution
    FolderBack,
    ListDamaged, ///< caution
  } kind{};
  std::string name{};                ///< of the photo in the folder
  std::string same_as{};             ///< SamePhoto: the name it was judged under
  std::optional<PhotoVerdict> verdict{};
  std::optional<Problem> problem{};
  std::optional<Caution> caution{};
};

/// Photos are the files whose names end as photos' do (hasPhotoEnding) and begin with no dot; folders in the folder are left alone. A photo is told from
/// another by its SHA-256: one whose content is in the folder's list, or in whose verdict its sum stands, is never judged again, under whatever name. What
/// could not be used is tried again when it changes, and once at the next start. Into the folder go the files beside the photos and the list, each whole.
class WatchFolder {
 public:
  /// Errors: FolderUnusable.
  static Result<WatchFolder> open(std::filesystem::path folder, JudgePhoto judge, const WatchTimes& times = {});

  /// Waits for the next thing to tell. Nothing when a stop was asked for. Errors end the watch: WriteFailed, and those of judging that do not lie in the photo.
  Result<std::optional<WatchEvent>> next(const std::stop_token& stop);

  /// Writes the list, where it has changed. To be called at the end; next() does it whenever it waits. Errors: WriteFailed.
  Result<void> keepList();

  /// The file beside a photo: its whole name and ".huewright.txt".
  static std::filesystem::path besideOf(std::filesystem::path photo);

 private:
  using Clock = std::chrono::steady_clock;

  /// What tells a changed file from the same one without reading it.
  struct Mark {
    std::uintmax_t device = 0, node = 0, bytes = 0;
    std::chrono::nanoseconds written{}, changed{};  ///< since 1970: the content; the content, its name or its permissions (some cards have no such time)
    bool operator==(const Mark&) const = default;
  };
  struct Waiting {
    Mark mark;
    Clock::time_point same_since, ready;
  };

  WatchFolder(std::filesystem::path folder, JudgePhoto judge, const WatchTimes& times);
  std::optional<Mark> markOf(const std::string& name) const;
  void lookThrough();
  void away();
  void readList();
  void sighted(const std::string& name, bool complete);
  void hear(const FolderNews& news);
  Result<void> take(const std::string& name, const std::stop_token& stop);
  Result<void> judgeIt(const std::string& name, const std::string& sum, const std::stop_token& stop);
  Result<void> trouble(const std::string& name, const Problem& problem, const std::string& sum);
  /// False when the folder is away, or another one lies in its place.
  Result<bool> write(const std::filesystem::path& path, const std::string& text) const;
  bool isThere() const;
  void settle(const std::string& name);

  std::filesystem::path folder_;
  JudgePhoto judge_;
  WatchTimes times_;
  std::unique_ptr<FolderNotices> notices_;
  std::optional<std::pair<std::uintmax_t, std::uintmax_t>> followed_;  ///< device and node of the folder
  bool is_away_ = false, list_changed_ = false;
  Clock::time_point next_look_{};
  std::map<std::string, Waiting> waiting_;
  std::map<std::string, Mark> settled_;
  std::set<std::string> refused_;                ///< sums of what could not be used, since the start
  std::map<std::string, WatchEvent> unwritten_;  ///< by sum: verdicts that were found while the folder went away
  JudgedList list_;
  std::deque<WatchEvent> events_;
};

}  // namespace huewright
