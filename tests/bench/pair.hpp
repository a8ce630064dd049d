// Two ways of doing the same, timed in turns within one run, so that a busy machine slows both.
#pragma once

#include <benchmark/benchmark.h>
#include <functional>
#include <string>

namespace huewright::bench {

struct Pair {
  std::string name;             ///< one word for the line that is printed
  std::string aim;              ///< the ratio that is wanted, or "-"
  std::string remark;           ///< printed as a comment
  int repetitions = 30;
  std::function<bool()> ours, theirs;  ///< one run each; false when it failed. Without theirs the time itself is printed, in milliseconds, and so is the aim
};

/// Registers the pair with Google Benchmark. Each is run once before it is timed.
void add(Pair pair);

/// Prints "name ratio aim" for each pair, the ratio being that of the two medians (or the median in milliseconds, where there is nothing to hold it against), and comments with both medians and their
/// spread (median absolute deviation).
class Lines final : public benchmark::BenchmarkReporter {
 public:
  bool ReportContext(const Context& context) override;
  void ReportRuns(const std::vector<Run>& runs) override;
};

}  // namespace huewright::bench
