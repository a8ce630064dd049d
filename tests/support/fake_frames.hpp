// Frames as a live camera would give them: noise on a scene, and what goes wrong with them.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <random>
#include <span>
#include <vector>

#include "capture/frame.hpp"

namespace huewright::fixtures {

inline constexpr Size kFakeSize{80, 60};

/// A grey of that level with noise of a few codes, from a seed.
inline Frame noisyFrame(unsigned seed, int level = 120, Size size = kFakeSize) {
  Frame frame{.size = size, .rgb = std::vector<std::uint8_t>(static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height) * 3), .number = 0, .seconds = 0};
  std::minstd_rand random(seed + 1);
  for (std::uint8_t& value : frame.rgb) value = static_cast<std::uint8_t>(std::clamp(level + static_cast<int>(random() >> 8 & 7) - 3, 0, 255));
  return frame;
}

inline std::span<std::uint8_t> rowOf(Frame& frame, int y) {
  const std::size_t stride = static_cast<std::size_t>(frame.size.width) * 3;
  return std::span(frame.rgb).subspan(stride * static_cast<std::size_t>(y), stride);
}

/// The lowest rows all of that one value.
inline Frame filledBelow(Frame frame, int rows, std::uint8_t value) {
  for (int y = frame.size.height - rows; y < frame.size.height; ++y) std::ranges::fill(rowOf(frame, y), value);
  return frame;
}

/// The lowest rows copies of the one above them.
inline Frame repeatedBelow(Frame frame, int rows) {
  const auto above = rowOf(frame, frame.size.height - rows - 1);
  for (int y = frame.size.height - rows; y < frame.size.height; ++y) std::ranges::copy(above, rowOf(frame, y).begin());
  return frame;
}

/// All of one value.
inline Frame plainFrame(std::uint8_t value, Size size = kFakeSize) {
  return {.size = size, .rgb = std::vector<std::uint8_t>(static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height) * 3, value), .number = 0, .seconds = 0};
}

}  // namespace huewright::fixtures
