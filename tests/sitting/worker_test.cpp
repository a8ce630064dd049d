#include "sitting/worker.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <future>
#include <stdexcept>
#include <thread>
#include <vector>

namespace huewright {
namespace {

/// A job that waits until it is let go or asked to stop.
struct HeldJob {
  std::promise<void> begun, release;
  std::atomic<bool> stopped = false;
  Job job(std::function<void()> finish) {
    return [this, finish](const Progress& progress) -> Finish {
      begun.set_value();
      auto free = release.get_future();
      while (free.wait_for(std::chrono::milliseconds(1)) != std::future_status::ready)
        if (progress.stopped()) {
          stopped = true;
          break;
        }
      return finish;
    };
  }
};

TEST(Worker, RunsOnAThreadOfItsOwnAndFinishesOnThisOne) {
  Worker worker;
  std::thread::id job, finish;
  worker.post("a", "A", [&](const Progress&) -> Finish {
    job = std::this_thread::get_id();
    return [&] { finish = std::this_thread::get_id(); };
  });
  worker.settle();
  EXPECT_NE(job, std::this_thread::get_id());
  EXPECT_NE(job, std::thread::id());
  EXPECT_EQ(finish, std::this_thread::get_id());
}

TEST(Worker, JobsRunInTheOrderTheyCame) {
  Worker worker;
  std::vector<int> order;
  for (int i = 0; i < 20; ++i) worker.post("lane " + std::to_string(i), "", [&order, i](const Progress&) -> Finish { return [&order, i] { order.push_back(i); }; });
  worker.settle();
  ASSERT_EQ(order.size(), 20u);
  for (int i = 0; i < 20; ++i) EXPECT_EQ(order[static_cast<std::size_t>(i)], i);
}

TEST(Worker, OnlyTheLastOfALaneCounts) {
  Worker worker;
  HeldJob held;
  std::vector<int> done;
  worker.post("a", "A", held.job([&] { done.push_back(0); }));
  held.begun.get_future().wait();
  for (int i = 1; i <= 3; ++i) worker.post("a", "A", [&done, i](const Progress&) -> Finish { return [&done, i] { done.push_back(i); }; });
  worker.settle();
  EXPECT_TRUE(held.stopped);
  EXPECT_EQ(done, std::vector<int>{3});
}

TEST(Worker, ACancelledLaneSaysNothingAndOthersGoOn) {
  Worker worker;
  HeldJob held;
  int a = 0, b = 0;
  worker.post("a", "A", held.job([&] { ++a; }));
  held.begun.get_future().wait();
  worker.post("b", "B", [&](const Progress&) -> Finish { return [&] { ++b; }; });
  EXPECT_TRUE(worker.busy("a"));
  EXPECT_TRUE(worker.busy("b"));
  worker.cancel("a");
  EXPECT_FALSE(worker.busy("a"));
  worker.settle();
  EXPECT_EQ(a, 0);
  EXPECT_EQ(b, 1);
}

TEST(Worker, AFinishCanCancelOneThatIsDueWithIt) {
  Worker worker;
  int b = 0;
  std::promise<void> both;
  worker.post("a", "A", [&](const Progress&) -> Finish { return [&] { worker.cancel("b"); }; });
  worker.post("b", "B", [&](const Progress&) -> Finish { return [&] { ++b; }; });
  worker.post("c", "C", [&](const Progress&) -> Finish {
    both.set_value();
    return {};
  });
  both.get_future().wait();
  worker.settle();
  EXPECT_EQ(b, 0);
}

TEST(Worker, TellsWhatItIsAtAndHowFar) {
  Worker worker;
  std::promise<void> told, release;
  worker.post("a", "Judging the panel", [&](const Progress& progress) -> Finish {
    progress.done(0.25);
    told.set_value();
    release.get_future().wait();
    return {};
  });
  worker.post("b", "B", [](const Progress&) -> Finish { return {}; });
  told.get_future().wait();
  const WorkNow now = worker.now();
  EXPECT_EQ(now.what, "Judging the panel");
  EXPECT_DOUBLE_EQ(now.share, 0.25);
  EXPECT_EQ(now.waiting, 1u);
  release.set_value();
  worker.settle();
  EXPECT_EQ(worker.now().what, "");
  EXPECT_TRUE(worker.idle());
}

TEST(Worker, WakesWhenSomethingIsDue) {
  std::promise<void> woken;
  std::once_flag once;
  Worker worker([&] { std::call_once(once, [&] { woken.set_value(); }); });
  int done = 0;
  worker.post("a", "", [&](const Progress&) -> Finish { return [&] { ++done; }; });
  ASSERT_EQ(woken.get_future().wait_for(std::chrono::seconds(20)), std::future_status::ready);
  worker.settle();
  EXPECT_EQ(done, 1);
}

TEST(Worker, AJobThatThrowsIsToldAndTheNextOneRuns) {
  Worker worker;
  std::string why;
  int done = 0;
  worker.post("a", "", [](const Progress&) -> Finish { throw std::runtime_error("out of paint"); }, [&](const std::string& what) { why = what; });
  worker.post("b", "", [&](const Progress&) -> Finish { return [&] { ++done; }; });
  worker.settle();
  EXPECT_EQ(why, "out of paint");
  EXPECT_EQ(done, 1);
}

TEST(Worker, GoesAwayInTheMiddleOfAJob) {
  HeldJob held;
  int done = 0;
  {
    Worker worker;
    worker.post("a", "", held.job([&] { ++done; }));
    held.begun.get_future().wait();
    worker.post("b", "", [&](const Progress&) -> Finish { return [&] { ++done; }; });
  }
  EXPECT_TRUE(held.stopped);
  EXPECT_EQ(done, 0);
}

TEST(Worker, AfterClosingNothingRunsAnyMore) {
  HeldJob held;
  int done = 0;
  std::atomic<bool> ran = false;
  Worker worker;
  worker.post("a", "", held.job([&] { ++done; }));
  held.begun.get_future().wait();
  worker.close();
  EXPECT_TRUE(held.stopped);
  worker.post("b", "", [&](const Progress&) -> Finish {
    ran = true;
    return [&] { ++done; };
  });
  worker.close();
  worker.poll();
  EXPECT_FALSE(ran);
  EXPECT_EQ(done, 0);
}

TEST(Worker, AFinishMayPostAgain) {
  Worker worker;
  int left = 5;
  std::function<void()> again = [&] {
    if (--left > 0) worker.post("a", "", [&](const Progress&) -> Finish { return again; });
  };
  worker.post("a", "", [&](const Progress&) -> Finish { return again; });
  worker.settle();
  EXPECT_EQ(left, 0);
}

}  // namespace
}  // namespace huewright
