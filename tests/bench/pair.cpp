#include "bench/pair.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <map>
#include <utility>
#include <vector>

namespace huewright::bench {
namespace {

struct Outcome {
  std::string aim, remark;
  std::vector<double> ours, theirs;  // seconds
};

std::map<std::string, Outcome>& outcomes() {
  static std::map<std::string, Outcome> all;
  return all;
}

double median(std::vector<double> values) {
  if (values.empty()) return std::nan("");
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::ranges::nth_element(values, middle);
  return *middle;
}

double spread(const std::vector<double>& values) {
  const double middle = median(values);
  std::vector<double> off(values.size());
  std::ranges::transform(values, off.begin(), [&](double v) { return std::abs(v - middle); });
  return median(off);
}

double seconds(const std::function<bool()>& run, bool& good) {
  const auto from = std::chrono::steady_clock::now();
  good = run() && good;
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - from).count();
}

void time(benchmark::State& state, const Pair& pair) {
  Outcome& outcome = outcomes()[pair.name];
  bool good = (!pair.theirs || pair.theirs()) && pair.ours();
  for (auto _ : state) {
    if (pair.theirs) outcome.theirs.push_back(seconds(pair.theirs, good));
    outcome.ours.push_back(seconds(pair.ours, good));
    state.SetIterationTime(outcome.ours.back());
  }
  if (!good) state.SkipWithError("a run failed");
}

}  // namespace

void add(Pair pair) {
  outcomes()[pair.name] = {pair.aim, pair.remark, {}, {}};
  const std::string name = pair.name;
  const int repetitions = pair.repetitions;
  benchmark::RegisterBenchmark(name.c_str(), [pair = std::move(pair)](benchmark::State& state) { time(state, pair); })
      ->UseManualTime()
      ->Iterations(repetitions);
}

bool Lines::ReportContext(const Context&) {
  std::printf("# %-26s %8s %6s\n", "name", "ratio", "aim");
  return true;
}

void Lines::ReportRuns(const std::vector<Run>& runs) {
  for (const Run& run : runs) {
    const std::string name = run.run_name.function_name;
    const Outcome& outcome = outcomes()[name];
    if (run.error_occurred) {
      std::printf("# %s: %s\n", name.c_str(), run.error_message.c_str());
      continue;
    }
    if (outcome.theirs.empty()) {
      const double ms = 1e3 * median(outcome.ours);
      std::printf("# %s\n#   spread %.2f ms, %zu times\n", outcome.remark.c_str(), 1e3 * spread(outcome.ours), outcome.ours.size());
      std::printf("%-28s %8.1f %6s\n", name.c_str(), ms, outcome.aim.c_str());
      continue;
    }
    const double ours = median(outcome.ours), theirs = median(outcome.theirs);
    std::printf("# %s\n#   %.2f ms (spread %.2f) against %.2f ms (spread %.2f), %zu times in turns\n", outcome.remark.c_str(), 1e3 * ours,
                1e3 * spread(outcome.ours), 1e3 * theirs, 1e3 * spread(outcome.theirs), outcome.ours.size());
    std::printf("%-28s %8.3f %6s\n", name.c_str(), ours / theirs, outcome.aim.c_str());
  }
  std::fflush(stdout);
}

}  // namespace huewright::bench
