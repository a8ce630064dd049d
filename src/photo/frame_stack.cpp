#include "photo/frame_stack.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "colour/rgb.hpp"
#include "photo/colour_path.hpp"
#include "photo/encoding.hpp"
#include "photo/source.hpp"

namespace huewright {
namespace {

using LightTable = std::array<std::uint32_t, 256>;
using Sums = std::vector<std::uint32_t>;

constexpr double kFullLight = 1U << 25;  // 64 of it, and a frame more, fit into 32 bits; code 1 of sRGB is 10185 of it
constexpr double kNearTop = 251.5, kNearBottom = 1.5;

double lightOf(double code, bool linear) { return linear ? code / 255 : srgbToLinear(code / 255); }

const LightTable& lightTable(bool linear) {
  static const auto kTables = [] {
    std::array<LightTable, 2> tables{};
    for (std::size_t i = 0; i < 256; ++i)
      for (const bool straight : {false, true}) tables[straight ? 1 : 0][i] = static_cast<std::uint32_t>(std::lround(kFullLight * lightOf(static_cast<double>(i), straight)));
    return tables;
  }();
  return kTables[linear ? 1 : 0];
}

/// The columns that any of the rectangles needs of a row.
std::pair<int, int> columnsOf(std::span<const Rect> wanted, int y, int width) {
  int first = width, end = 0;
  for (const Rect& rect : wanted)
    if (y >= rect.y && y < rect.y + rect.height) {
      first = std::min(first, rect.x);
      end = std::max(end, rect.x + rect.width);
    }
  return {first, end};
}

class StackSource final : public PhotoSource {
 public:
  StackSource(std::shared_ptr<const Sums> sums, double weight, bool linear) : sums_(std::move(sums)), weight_(weight), linear_(linear) {}

  Result<void> decode(std::span<const Rect> wanted, int, const RowSink& sink) override {
    const auto scale = static_cast<float>(1 / (kFullLight * weight_));
    const auto top = static_cast<float>(lightOf(kNearTop, linear_)), bottom = static_cast<float>(lightOf(kNearBottom, linear_));
    std::vector<float> line(std::size_t{3} * static_cast<std::size_t>(stored.width));
    std::vector<std::uint8_t> clip(static_cast<std::size_t>(stored.width));
    for (int y = 0; y < stored.height; ++y) {
      const auto [first, end] = columnsOf(wanted, y, stored.width);
      if (first >= end) continue;
      const std::uint32_t* from = sums_->data() + 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(stored.width) + static_cast<std::size_t>(first));
      const int count = end - first;
      for (int i = 0; i < 3 * count; ++i) line[static_cast<std::size_t>(i)] = static_cast<float>(from[i]) * scale;
      for (int i = 0; i < count; ++i) {
        unsigned bits = 0;
        for (unsigned c = 0; c < 3; ++c) {
          const float light = line[3 * static_cast<std::size_t>(i) + c];
          bits |= static_cast<unsigned>(light >= top) << c;
          bits |= static_cast<unsigned>(light <= bottom) << (c + 3);
        }
        clip[static_cast<std::size_t>(i)] = static_cast<std::uint8_t>(bits);
      }
      sink({y, first, count, Sample::Xyz, 3, line.data(), clip.data()});
    }
    return {};
  }

 private:
  std::shared_ptr<const Sums> sums_;
  double weight_;
  bool linear_;
};

}  // namespace

FrameStack::FrameStack(Size size, Encoding encoding)
    : size_{std::max(size.width, 0), std::max(size.height, 0)}, encoding_(encoding),
      sums_(std::make_shared<Sums>(std::size_t{3} * static_cast<std::size_t>(size_.width) * static_cast<std::size_t>(size_.height))) {}

void FrameStack::add(std::span<const std::uint8_t> rgb, int dx, int dy, std::size_t most) {
  if (rgb.size() != sums_->size() || rgb.empty()) return;
  const auto bound = static_cast<double>(std::clamp<std::size_t>(most, 1, 64));
  if (weight_ + 1 > bound) {
    // With a bound of one nothing of the older frames is left.
    const unsigned by = bound < 2 ? 31 : 1;
    for (std::uint32_t& sum : *sums_) sum >>= by;
    weight_ = bound < 2 ? 0 : weight_ / 2;
    squares_ = bound < 2 ? 0 : squares_ / 4;
  }
  const LightTable& light = lightTable(encoding_ == Encoding::Linear);
  const int width = size_.width, height = size_.height;
  // Columns whose pixel lies inside the frame; the others take its edge.
  const int inside = std::clamp(-dx, 0, width), beyond = std::clamp(width - dx, inside, width);
  for (int y = 0; y < height; ++y) {
    const std::uint8_t* row = rgb.data() + std::size_t{3} * static_cast<std::size_t>(width) * static_cast<std::size_t>(std::clamp(y + dy, 0, height - 1));
    std::uint32_t* sum = sums_->data() + std::size_t{3} * static_cast<std::size_t>(width) * static_cast<std::size_t>(y);
    for (int x = 0; x < inside; ++x)
      for (int c = 0; c < 3; ++c) sum[3 * x + c] += light[row[3 * std::clamp(x + dx, 0, width - 1) + c]];
    for (int i = 3 * inside; i < 3 * beyond; ++i) sum[i] += light[row[i + 3 * dx]];
    for (int x = beyond; x < width; ++x)
      for (int c = 0; c < 3; ++c) sum[3 * x + c] += light[row[3 * std::clamp(x + dx, 0, width - 1) + c]];
  }
  weight_ += 1;
  squares_ += 1;
}

double FrameStack::frames() const { return squares_ > 0 ? weight_ * weight_ / squares_ : 0; }

Photo FrameStack::photo() const {
  auto source = std::make_unique<StackSource>(sums_, std::max(weight_, 1.0), encoding_ == Encoding::Linear);
  PhotoFacts& facts = source->facts;
  facts.format = kFrameFormat;
  source->traces.live = true;
  facts.size = source->stored = size_;
  static_cast<void>(chooseColour({}, encoding_, facts));  // without a profile it cannot fail
  facts.rounding = rounding_.steps;
  facts.chroma_subsampled = rounding_.chroma_subsampled;
  source->colour = balanceAndMatrix({1, 1, 1}, kSrgbToXyzD50);
  return Photo(std::move(source));
}

}  // namespace huewright
