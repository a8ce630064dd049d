#include "photo/shrink.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "colour/rgb.hpp"
#include "photo/orientation.hpp"

namespace huewright {
namespace {

constexpr std::size_t kSteps = 1U << 14;  // a fifth of an 8-bit code in the steepest part of the curve

/// 8-bit sRGB codes of light 0..1 in even steps.
const std::array<std::uint8_t, kSteps + 1>& codeTable() {
  static const auto table = [] {
    std::array<std::uint8_t, kSteps + 1> codes{};
    for (std::size_t i = 0; i <= kSteps; ++i)
      codes[i] = static_cast<std::uint8_t>(std::lround(255.0 * srgbFromLinear(static_cast<double>(i) / kSteps)));
    return codes;
  }();
  return table;
}

std::uint8_t codeOf(float light) {
  return codeTable()[static_cast<std::size_t>(std::clamp(light, 0.0F, 1.0F) * static_cast<float>(kSteps) + 0.5F)];
}

int ceilDiv(int a, int b) { return (a + b - 1) / b; }

int sideOf(int stored, double scale) { return std::max(1, static_cast<int>(std::lround(stored * scale))); }

}  // namespace

double Shrinker::scaleFor(Size stored, int max_side) {
  return std::min(1.0, static_cast<double>(std::max(max_side, 1)) / std::max(stored.width, stored.height));
}

Shrinker::Axis Shrinker::axis(int stored, int shrink, int targets, double scale, bool turned_round) {
  Axis a;
  a.target.resize(static_cast<std::size_t>(ceilDiv(stored, shrink)));
  a.here.resize(a.target.size());
  a.next.resize(a.target.size());
  a.sum.resize(static_cast<std::size_t>(targets));
  const double shift = turned_round ? targets - stored * scale : 0.0;
  for (std::size_t i = 0; i < a.target.size(); ++i) {
    const double first = static_cast<double>(i) * shrink * scale + shift;
    const double last = std::min(static_cast<double>(i + 1) * shrink, static_cast<double>(stored)) * scale + shift;
    const int target = std::clamp(static_cast<int>(std::floor(first)), 0, targets - 1);
    const double knee = target + 1.0;
    const bool more = target + 1 < targets;
    a.target[i] = target;
    a.here[i] = static_cast<float>(std::max(0.0, std::min(last, knee) - std::max(first, knee - 1.0)));
    a.next[i] = more ? static_cast<float>(std::max(0.0, last - std::max(first, knee))) : 0.0F;
    a.sum[static_cast<std::size_t>(target)] += a.here[i];
    if (more) a.sum[static_cast<std::size_t>(target) + 1] += a.next[i];
  }
  return a;
}

Shrinker::Shrinker(const PhotoSource& source, int max_side, int shrink) : source_(source), scale_(scaleFor(source.stored, max_side)) {
  const Size stored = source.stored;
  size_ = {sideOf(stored.width, scale_), sideOf(stored.height, scale_)};
  const Turn turn = turnUpright(source.turned, stored);
  across_ = axis(stored.width, shrink, size_.width, scale_, turn.xx < 0 || turn.yx < 0);
  down_ = axis(stored.height, shrink, size_.height, scale_, turn.xy < 0 || turn.yy < 0);
  missing_ = static_cast<std::int64_t>(across_.target.size() * down_.target.size());
  const std::size_t line = std::size_t{3} * static_cast<std::size_t>(size_.width);
  line_.resize(line);
  sum_.resize(line * static_cast<std::size_t>(size_.height));
}

void Shrinker::take(const StoredRow& row) {
  xyz_.resize(std::size_t{3} * static_cast<std::size_t>(row.count));
  (source_.preview_colour ? source_.preview_colour : source_.colour)->convert(row, 0, row.count, xyz_.data());
  const std::size_t first = static_cast<std::size_t>(row.x);
  const std::size_t left = 3 * static_cast<std::size_t>(across_.target[first]);
  const std::size_t end = std::min(line_.size(), 3 * (static_cast<std::size_t>(across_.target[first + row.count - 1]) + 2));
  std::fill(line_.begin() + static_cast<std::ptrdiff_t>(left), line_.begin() + static_cast<std::ptrdiff_t>(end), 0.0F);
  const float* from = xyz_.data();
  for (std::size_t i = first; i < first + row.count; ++i, from += 3) {
    float* to = line_.data() + 3 * static_cast<std::size_t>(across_.target[i]);
    for (int c = 0; c < 3; ++c) to[c] += across_.here[i] * from[c];
    if (across_.next[i] > 0)
      for (int c = 0; c < 3; ++c) to[3 + c] += across_.next[i] * from[c];
  }
  const std::size_t y = static_cast<std::size_t>(row.y);
  const auto add = [&](std::size_t target, float weight) {
    float* to = sum_.data() + target * line_.size();
    for (std::size_t i = left; i < end; ++i) to[i] += weight * line_[i];
  };
  add(static_cast<std::size_t>(down_.target[y]), down_.here[y]);
  if (down_.next[y] > 0) add(static_cast<std::size_t>(down_.target[y]) + 1, down_.next[y]);
  missing_ -= row.count;
}

Preview Shrinker::finish() const {
  const Mat3& matrix = kXyzD50ToSrgb;
  std::array<float, 9> m{};
  for (std::size_t i = 0; i < 9; ++i) m[i] = static_cast<float>(matrix(i / 3, i % 3));

  Preview preview;
  preview.size = uprightSize(source_.turned, size_);
  preview.scale = scale_;
  preview.rgb.resize(sum_.size());
  const Turn turn = turnUpright(source_.turned, size_);
  const float* from = sum_.data();
  for (int y = 0; y < size_.height; ++y)
    for (int x = 0; x < size_.width; ++x, from += 3) {
      const float weight = across_.sum[static_cast<std::size_t>(x)] * down_.sum[static_cast<std::size_t>(y)];
      const float k = weight > 0 ? 1.0F / weight : 0.0F;
      const std::ptrdiff_t at = (turn.xx * x + turn.xy * y + turn.x0) +
                                std::ptrdiff_t{turn.yx * x + turn.yy * y + turn.y0} * preview.size.width;
      std::uint8_t* to = preview.rgb.data() + 3 * at;
      for (std::size_t c = 0; c < 3; ++c)
        to[c] = codeOf(k * (m[3 * c] * from[0] + m[3 * c + 1] * from[1] + m[3 * c + 2] * from[2]));
    }
  return preview;
}

}  // namespace huewright
