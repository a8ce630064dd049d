#include "photo/collect.hpp"

#include <algorithm>

namespace huewright {
namespace {

template <class Code>
std::uint8_t clipOf(const Code* code, ClipBounds bounds) {
  unsigned bits = 0;
  for (unsigned c = 0; c < 3; ++c) {
    bits |= static_cast<unsigned>(code[c] >= bounds.top) << c;
    bits |= static_cast<unsigned>(code[c] <= bounds.bottom) << (c + 3);
  }
  return static_cast<std::uint8_t>(bits);
}

std::uint8_t clipAt(const StoredRow& row, int i, ClipBounds bounds) {
  if (row.clip != nullptr) return row.clip[i];
  if (row.sample == Sample::Code8) return clipOf(row.code8(i), bounds);
  if (row.sample == Sample::Code16) return clipOf(row.code16(i), bounds);
  return 0;
}

/// False when no sample of these pixels is at an end of its range, which spares looking at them one by one.
template <class Code>
bool anyBeyond(const Code* code, int count, ClipBounds bounds) {
  int most = 0, least = 65535;
  for (int i = 0; i < count; ++i) {
    most = std::max<int>(most, code[i]);
    least = std::min<int>(least, code[i]);
  }
  return most >= bounds.top || least <= bounds.bottom;
}

bool anyClipped(const StoredRow& row, int first, int count, ClipBounds bounds) {
  if (row.clip != nullptr) return std::any_of(row.clip + first, row.clip + first + count, [](std::uint8_t bits) { return bits != 0; });
  if (row.sample == Sample::Code8) return anyBeyond(row.code8(first), count * row.channels, bounds);
  if (row.sample == Sample::Code16) return anyBeyond(row.code16(first), count * row.channels, bounds);
  return false;
}

}  // namespace

ClipBounds clipBounds(int bits, bool linear) {
  const int most = (1 << bits) - 1;
  return {(253 * most + 254) / 255, linear && bits > 8 ? 0 : most / 255};
}

Collector::Collector(const PhotoSource& source, std::span<const Rect> upright)
    : source_(source), turn_(turnUpright(source.turned, source.stored)), clip_(clipBounds(source.facts.bits, source.facts.linear)) {
  for (const Rect& rect : upright) {
    const auto pixels = static_cast<std::size_t>(rect.width) * static_cast<std::size_t>(rect.height);
    stored_.push_back(toStored(rect, source.turned, source.stored));
    missing_.push_back(static_cast<std::int64_t>(pixels));
    rasters_.push_back({rect, std::vector<float>(3 * pixels), std::vector<std::uint8_t>(pixels)});
  }
}

void Collector::take(const StoredRow& row) {
  for (std::size_t i = 0; i < stored_.size(); ++i)
    if (row.y >= stored_[i].y && row.y < stored_[i].y + stored_[i].height) fill(i, row);
}

void Collector::fill(std::size_t which, const StoredRow& row) {
  const Rect& stored = stored_[which];
  const int left = std::max(row.x, stored.x);
  const int count = std::min(row.x + row.count, stored.x + stored.width) - left;
  if (count <= 0) return;
  const int first = left - row.x;
  Raster& raster = rasters_[which];
  const std::ptrdiff_t width = raster.rect.width;
  std::ptrdiff_t at = (turn_.xx * left + turn_.xy * row.y + turn_.x0 - raster.rect.x) +
                      (turn_.yx * left + turn_.yy * row.y + turn_.y0 - raster.rect.y) * width;
  const std::ptrdiff_t step = turn_.xx + turn_.yx * width;
  if (step == 1) {
    source_.colour->convert(row, first, count, raster.xyz.data() + 3 * at);
  } else {
    xyz_.resize(std::size_t{3} * static_cast<std::size_t>(count));
    source_.colour->convert(row, first, count, xyz_.data());
    for (int i = 0; i < count; ++i) std::copy_n(xyz_.data() + std::ptrdiff_t{3} * i, 3, raster.xyz.data() + 3 * (at + i * step));
  }
  if (anyClipped(row, first, count, clip_))
    for (int i = 0; i < count; ++i) raster.clip[static_cast<std::size_t>(at + i * step)] = clipAt(row, first + i, clip_);
  missing_[which] -= count;
}

bool Collector::complete() const {
  return std::all_of(missing_.begin(), missing_.end(), [](std::int64_t n) { return n == 0; });
}

}  // namespace huewright
