#include "photo/code_watch.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdlib>

namespace huewright {
namespace {

// Judgement, tried on simulated photos and on real ones; no source.
constexpr int kCountedPixels = 1'000'000;
constexpr int kLowest = 32;          // darker codes have natural gaps where a sensor's few steps met a steep curve
constexpr int kFewestGaps = 6;
constexpr int kAround = 4;           // codes on each side
constexpr double kHardly = 0.02;     // of what is usual round about
constexpr std::uint32_t kFrequent = 60;
constexpr int kEdgeMost = 48;        // in twelfths of a code: real edges must not outvote the fine ones
constexpr int kDownEvery = 3;        // columns that edges between rows are looked for in
constexpr std::size_t kFewestParts = 16;
constexpr double kChance = 1e-5;
constexpr int kPartRows = 32;

/// Probability of `least` or more of n, each with probability p.
double atLeast(int least, int n, double p) {
  double sum = 0;
  for (int k = least; k <= n; ++k)
    sum += std::exp(std::lgamma(n + 1.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0) + k * std::log(p) + (n - k) * std::log1p(-p));
  return sum;
}

std::int16_t lightOf(const std::uint8_t* code) { return static_cast<std::int16_t>(code[0] + 2 * code[1] + code[2]); }

/// A step between the two middle ones of four, beyond the slopes beside it.
std::int64_t edge(int a, int b, int c, int d) { return std::min(std::abs(3 * (c - b) - (d - a)), kEdgeMost); }

}  // namespace

CodeWatch::CodeWatch(Size stored)
    : size_(stored), every_(std::max(1, static_cast<int>(std::int64_t{stored.width} * stored.height / kCountedPixels))),
      edges_along_(kParts * kParts), edges_down_(kParts * kParts) {}

void CodeWatch::take(const StoredRow& row) {
  if (row.sample != Sample::Code8 || row.x != 0 || row.count != size_.width || row.y >= size_.height || row.channels < 3) return;
  if (row.y != expected_) {
    from_top_ = false;
    for (auto& line : above_) line.clear();
  }
  expected_ = row.y + 1;
  seeBar(row);
  if (row.y % every_ == 0) countCodes(row);
  seeEdges(row);
}

void CodeWatch::countCodes(const StoredRow& row) {
  for (int x = 0; x < row.count; ++x) {
    const std::uint8_t* code = row.code8(x);
    for (std::size_t c = 0; c < 3; ++c) ++counts_[c][code[c]];
  }
}

void CodeWatch::seeEdges(const StoredRow& row) {
  const auto part_row = static_cast<std::size_t>(std::int64_t{row.y} * kParts / size_.height);
  const auto partOf = [&](int x) { return part_row * kParts + static_cast<std::size_t>(std::int64_t{x} * kParts / size_.width); };
  if (row.y % every_ == 0) {
    along_.resize(static_cast<std::size_t>(row.count));
    for (int x = 0; x < row.count; ++x) along_[static_cast<std::size_t>(x)] = lightOf(row.code8(x));
    for (int x = 8; x + 8 < row.count; x += 8) {
      Phases& phases = edges_along_[partOf(x)];
      for (int i = 0; i < 8; ++i) {
        const auto at = static_cast<std::size_t>(x + i);
        phases[static_cast<std::size_t>(i)] += edge(along_[at - 2], along_[at - 1], along_[at], along_[at + 1]);
      }
    }
  }
  std::rotate(above_.begin(), above_.begin() + 1, above_.end());
  std::vector<std::int16_t>& now = above_.back();
  now.clear();
  for (int x = 0; x < row.count; x += kDownEvery * every_) now.push_back(lightOf(row.code8(x)));
  if (above_.front().size() != now.size()) return;
  const auto phase = static_cast<std::size_t>((row.y - 1) % 8);
  for (std::size_t i = 0; i < now.size(); ++i)
    edges_down_[partOf(static_cast<int>(i) * kDownEvery * every_)][phase] += edge(above_[0][i], above_[1][i], above_[2][i], now[i]);
}

void CodeWatch::seeBar(const StoredRow& row) {
  const std::uint8_t* first = row.code8(0);
  bool plain = true;
  for (int x = 1; plain && x < row.count; ++x) plain = std::equal(first, first + 3, row.code8(x));
  const bool same = plain && bar_run_ > 0 && std::equal(first, first + 3, bar_colour_.begin());
  bar_run_ = !plain ? 0 : same ? bar_run_ + 1 : 1;
  if (plain) std::copy_n(first, 3, bar_colour_.begin());
  if (!above_done_ && bar_run_ == row.y + 1) bar_above_ = bar_run_;
  else above_done_ = true;
}

bool CodeWatch::hasGaps(const std::array<std::uint32_t, 256>& counts) {
  std::uint64_t all = 0;
  for (const std::uint32_t n : counts) all += n;
  int low = 0, high = 255;
  for (std::uint64_t sum = 0; low < 255 && (sum += counts[static_cast<std::size_t>(low)]) * 200 < all;) ++low;
  for (std::uint64_t sum = 0; high > 0 && (sum += counts[static_cast<std::size_t>(high)]) * 200 < all;) --high;
  low = std::max(low, kLowest);
  int gaps = 0, first = 256, last = 0;
  for (int k = low + 1; k < high; ++k) {
    std::vector<std::uint32_t> around;
    for (int j = std::max(low, k - kAround); j <= std::min(high, k + kAround); ++j)
      if (j != k && counts[static_cast<std::size_t>(j)] > 0) around.push_back(counts[static_cast<std::size_t>(j)]);
    if (around.size() < 2) continue;
    const auto middle = around.begin() + static_cast<std::ptrdiff_t>(around.size() / 2);
    std::nth_element(around.begin(), middle, around.end());
    if (*middle < kFrequent || counts[static_cast<std::size_t>(k)] > kHardly * *middle) continue;
    ++gaps;
    first = std::min(first, k);
    last = k;
  }
  return gaps >= kFewestGaps && 3 * (last - first) >= high - low;
}

bool CodeWatch::agree(const std::vector<Phases>& parts) {
  std::array<int, 8> votes{};
  int n = 0;
  for (const Phases& phases : parts) {
    std::array<std::int64_t, 2> of_parity{};
    for (std::size_t i = 0; i < 8; ++i) of_parity[i % 2] += phases[i];
    if (of_parity[0] + of_parity[1] == 0) continue;
    std::array<std::int64_t, 8> stands_out{};
    for (std::size_t i = 0; i < 8; ++i) stands_out[i] = 4 * phases[i] - of_parity[i % 2];
    const auto most = std::ranges::max_element(stands_out);
    if (*most <= 0) continue;
    ++votes[static_cast<std::size_t>(most - stands_out.begin())];
    ++n;
  }
  if (static_cast<std::size_t>(n) < kFewestParts) return false;
  return 8 * atLeast(*std::ranges::max_element(votes), n, 1.0 / 8) < kChance;
}

CodeTraces CodeWatch::result() const {
  CodeTraces traces;
  traces.gaps = std::ranges::any_of(counts_, hasGaps);
  const bool large = std::min(size_.width, size_.height) >= kPartRows * kParts;
  traces.block_grid = large && agree(edges_along_) && agree(edges_down_);
  if (from_top_ && expected_ == size_.height && bar_above_ < size_.height) {
    traces.bar_above = bar_above_;
    traces.bar_below = bar_run_;
  }
  return traces;
}

}  // namespace huewright
