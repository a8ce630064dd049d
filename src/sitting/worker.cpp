#include "sitting/worker.hpp"

#include <algorithm>
#include <condition_variable>
#include <deque>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace huewright {

struct Worker::Inside {
  struct Item {
    std::string lane, what;
    Job job;
    std::function<void(const std::string&)> failed;
    std::stop_source stop;
  };

  explicit Inside(std::function<void()> w) : wake(std::move(w)), thread([this] { run(); }) {}
  ~Inside() { close(); }

  void close() {
    {
      const std::scoped_lock hold(lock);
      closing = true;
      waiting.clear();
      if (running) running->stop.request_stop();
    }
    changed.notify_all();
    if (thread.joinable()) thread.join();
  }

  void run() {
    for (;;) {
      std::shared_ptr<Item> item;
      {
        std::unique_lock hold(lock);
        changed.wait(hold, [&] { return closing || !waiting.empty(); });
        if (closing) return;
        item = waiting.front();
        waiting.pop_front();
        running = item;
        share = 0;
      }
      Finish finish;
      const Progress progress(item->stop.get_token(), [this](double s) {
        {
          const std::scoped_lock hold(lock);
          share = std::clamp(s, 0.0, 1.0);
        }
        if (wake) wake();
      });
      try {
        finish = item->job(progress);
      } catch (const std::exception& e) {
        if (item->failed) finish = [failed = item->failed, why = std::string(e.what())] { failed(why); };
      }
      {
        const std::scoped_lock hold(lock);
        running = nullptr;
        // A job that was replaced while it ran has nothing to say any more.
        if (finish && !item->stop.stop_requested()) due.push_back({std::move(item), std::move(finish)});
      }
      idle.notify_all();
      if (wake) wake();
    }
  }

  std::function<void()> wake;
  mutable std::mutex lock;
  std::condition_variable changed, idle;
  std::deque<std::shared_ptr<Item>> waiting;
  std::shared_ptr<Item> running;
  std::vector<std::pair<std::shared_ptr<Item>, Finish>> due, handing;  ///< handing: what poll() is at
  double share = 0;
  bool closing = false;
  std::thread thread;  // the last, so that all else is there when it starts
};

Worker::Worker(std::function<void()> wake) : in_(std::make_unique<Inside>(std::move(wake))) {}
Worker::~Worker() = default;

void Worker::close() { in_->close(); }

void Worker::post(std::string lane, std::string what, Job job, std::function<void(const std::string&)> failed) {
  cancel(lane);
  {
    const std::scoped_lock hold(in_->lock);
    in_->waiting.push_back(std::make_shared<Inside::Item>(Inside::Item{std::move(lane), std::move(what), std::move(job), std::move(failed), {}}));
  }
  in_->changed.notify_one();
}

void Worker::cancel(const std::string& lane) {
  const std::scoped_lock hold(in_->lock);
  std::erase_if(in_->waiting, [&](const auto& item) { return item->lane == lane; });
  std::erase_if(in_->due, [&](const auto& one) { return one.first->lane == lane; });
  for (const auto& one : in_->handing)
    if (one.first->lane == lane) one.first->stop.request_stop();
  if (in_->running && in_->running->lane == lane) in_->running->stop.request_stop();
}

void Worker::cancelAll() {
  const std::scoped_lock hold(in_->lock);
  in_->waiting.clear();
  in_->due.clear();
  for (const auto& one : in_->handing) one.first->stop.request_stop();
  if (in_->running) in_->running->stop.request_stop();
}

bool Worker::busy(const std::string& lane) const {
  const std::scoped_lock hold(in_->lock);
  const auto of = [&](const auto& item) { return item->lane == lane && !item->stop.stop_requested(); };
  return (in_->running && of(in_->running)) || std::ranges::any_of(in_->waiting, of) || std::ranges::any_of(in_->due, [&](const auto& one) { return one.first->lane == lane; });
}

WorkNow Worker::now() const {
  const std::scoped_lock hold(in_->lock);
  WorkNow now;
  now.waiting = in_->waiting.size();
  if (in_->running && !in_->running->stop.stop_requested()) {
    now.what = in_->running->what;
    now.share = in_->share;
  }
  return now;
}

bool Worker::idle() const {
  const std::scoped_lock hold(in_->lock);
  return in_->waiting.empty() && !in_->running && in_->due.empty();
}

bool Worker::poll() {
  {
    const std::scoped_lock hold(in_->lock);
    in_->handing.swap(in_->due);
  }
  // A finish may post or cancel, so the lock is not held; what it cancels of this very list is not handed on.
  const bool any = !in_->handing.empty();
  for (const auto& [item, finish] : in_->handing)
    if (!item->stop.stop_requested()) finish();
  const std::scoped_lock hold(in_->lock);
  in_->handing.clear();
  return any;
}

void Worker::settle() {
  for (;;) {
    {
      std::unique_lock hold(in_->lock);
      in_->idle.wait(hold, [&] { return !in_->due.empty() || (in_->waiting.empty() && !in_->running); });
    }
    if (!poll()) return;
  }
}

}  // namespace huewright
