// A followed folder on a thread of its own, for a window that must not wait.
#pragma once

#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "session/watch_folder.hpp"
#include "sitting/arrivals.hpp"

namespace huewright {

/// What came since it was asked last.
struct FolderSaid {
  std::vector<Arrival> arrivals;           ///< in the order they came; without ids
  std::string trouble;                     ///< as it is now
  bool over = false;                       ///< it is followed no longer
};

class FolderRun {
 public:
  /// Judges what is in the folder and what comes, as `huewright watch --folder` does and with the same files written, until it is told to stop or something is wrong that is no photo's fault. In: a
  /// session that outlives this; the request for all photos; wake: called on the thread when take() has something; another run, which is stopped first and waited for on this one's thread.
  FolderRun(const Session& session, std::filesystem::path folder, JudgeRequest judge, const WatchTimes& times, std::function<void()> wake, std::unique_ptr<FolderRun> before = nullptr);
  /// Stops and waits; the list of what was judged is written.
  ~FolderRun();
  FolderRun(const FolderRun&) = delete;
  FolderRun& operator=(const FolderRun&) = delete;

  void stop();
  /// Photos that come from now on are judged by this.
  void judgeBy(JudgeRequest judge);

  std::optional<FolderSaid> take();

 private:
  void run(const std::stop_token& stop);
  void watch(const std::stop_token& stop);
  void tell(std::optional<Arrival> arrival, const std::optional<std::string>& trouble, bool over = false);

  const Session& session_;
  std::filesystem::path folder_;
  WatchTimes times_;
  std::function<void()> wake_;
  std::unique_ptr<FolderRun> before_;
  std::mutex lock_;
  JudgeRequest judge_;                     ///< under the lock, as are those that follow
  FolderSaid said_;
  bool news_ = false;
  std::jthread thread_;                    ///< the last, so that all else is there when it starts
};

}  // namespace huewright
