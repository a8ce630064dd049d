#include "capture/frame_check.hpp"

#include <algorithm>
#include <cstring>
#include <utility>

namespace huewright {
namespace {

constexpr std::uint8_t kBurntOut = 255;

bool hasPixels(const Frame& frame) {
  return frame.size.width > 0 && frame.size.height > 0 &&
         frame.rgb.size() == static_cast<std::size_t>(frame.size.width) * static_cast<std::size_t>(frame.size.height) * 3;
}

/// Whether all pixels of a run of bytes are the same: then it is the same when moved by one pixel.
bool oneColour(const std::uint8_t* rgb, std::size_t bytes) { return bytes <= 3 || std::memcmp(rgb, rgb + 3, bytes - 3) == 0; }

/// How many of the lowest rows are the same as the lowest. 0 when they are burnt out.
int sameRowsBelow(const Frame& frame, int at_most) {
  const std::size_t stride = static_cast<std::size_t>(frame.size.width) * 3;
  const std::uint8_t* last = frame.rgb.data() + stride * static_cast<std::size_t>(frame.size.height - 1);
  if (std::all_of(last, last + stride, [](std::uint8_t v) { return v == kBurntOut; })) return 0;
  int rows = 1;
  while (rows < std::min(at_most, frame.size.height) && std::memcmp(last - stride * static_cast<std::size_t>(rows), last, stride) == 0) ++rows;
  return rows;
}

bool lowerRowsTheSame(const Frame& frame) {
  constexpr int kShare = 32, kFewest = 8;
  const int needed = std::max((frame.size.height + kShare - 1) / kShare, kFewest);
  return sameRowsBelow(frame, needed) >= needed;
}

}  // namespace

void FrameCheck::restart() {
  sample_before_.clear();
  before_.clear();
  was_so_ = true;
}

bool FrameCheck::isRepeated(const Frame& frame) {
  constexpr std::size_t kEvery = 509;  // a prime, so that all columns and channels have their turn
  if (!live_) return false;
  sample_.clear();
  for (std::size_t i = 0; i < frame.rgb.size(); i += kEvery) sample_.push_back(frame.rgb[i]);
  const bool may_be = sample_ == sample_before_;
  std::swap(sample_, sample_before_);
  if (may_be && before_ == frame.rgb) return true;
  if (may_be) before_ = frame.rgb;  // the first repeat, which is allowed: the next one is looked at in full
  else before_.clear();
  return false;
}

FrameState FrameCheck::look(const Frame& frame) {
  if (!hasPixels(frame) || oneColour(frame.rgb.data(), frame.rgb.size())) return FrameState::Empty;
  const bool repeated = isRepeated(frame);
  const bool so = lowerRowsTheSame(frame);
  if (size_ && *size_ != frame.size) {
    size_ = frame.size;
    was_so_ = so;
    return FrameState::OtherSize;
  }
  if (repeated) return FrameState::Frozen;
  if (so && !was_so_) return FrameState::Half;
  size_ = frame.size;
  was_so_ = so;
  return FrameState::Good;
}

}  // namespace huewright
