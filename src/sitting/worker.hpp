// Work that must not hold up a window: one thread, jobs in lanes, results handed back on the caller's own thread.
#pragma once

#include <functional>
#include <memory>
#include <stop_token>
#include <string>

namespace huewright {

/// What a job may ask and tell while it runs. Safe on the worker's thread.
class Progress {
 public:
  Progress(std::stop_token stop, std::function<void(double)> tell) : stop_(std::move(stop)), tell_(std::move(tell)) {}
  const std::stop_token& stop() const { return stop_; }
  bool stopped() const { return stop_.stop_requested(); }
  /// In: the share that is done, 0..1.
  void done(double share) const { tell_(share); }

 private:
  std::stop_token stop_;
  std::function<void(double)> tell_;
};

/// What is to be done with a result, on the caller's thread.
using Finish = std::function<void()>;
using Job = std::function<Finish(const Progress&)>;

/// What the worker is at.
struct WorkNow {
  std::string what;      ///< as the job was called: "Judging the panel"; empty: nothing
  double share = 0;      ///< 0..1
  std::size_t waiting = 0;
};

class Worker {
 public:
  /// wake: called on the worker's thread whenever poll() has something to do; it may be empty.
  explicit Worker(std::function<void()> wake = {});
  /// As close().
  ~Worker();
  Worker(const Worker&) = delete;
  Worker& operator=(const Worker&) = delete;

  /// Asks the running job to stop, drops the waiting ones and waits: nothing of it runs any more, or will.
  void close();

  /// Queues a job. A waiting job of the same lane is replaced, a running one is asked to stop and its result dropped: only the last of a lane counts.
  /// A job that throws counts as finished without a result, but for what `failed` makes of its message.
  void post(std::string lane, std::string what, Job job, std::function<void(const std::string&)> failed = {});

  /// Drops what a lane has waiting or running.
  void cancel(const std::string& lane);
  void cancelAll();

  /// True when the lane has something waiting or running.
  bool busy(const std::string& lane) const;
  WorkNow now() const;
  /// True when nothing is waiting, running or to be handed over.
  bool idle() const;

  /// Runs the finishes that are due, on this thread. True when there were any.
  bool poll();

  /// Waits until nothing is waiting or running and poll() has run everything. For tests and for closing.
  void settle();

 private:
  struct Inside;
  std::unique_ptr<Inside> in_;
};

}  // namespace huewright
