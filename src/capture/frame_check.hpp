// Whether a frame of a camera is one to be used.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "capture/frame.hpp"

namespace huewright {

enum class FrameState {
  Good,
  Empty,      ///< no pixels, or all of one colour to the last bit
  Frozen,     ///< of a live camera: the third in a row, or a later one, that is the same byte for byte. Noise makes that impossible; a driver may give one twice
  Half,       ///< its lower rows are missing, and a decoder has filled them: see below
  OtherSize,  ///< than the one before; that size is the expected one from now on
};

/// Looks at each frame beside the ones before it. Under half a millisecond at 1920 x 1080, and about three while frames
/// are the same (measured on a busy machine of two cores).
///
/// Half: the lowest rows, a 32nd of all and at least eight, are the same byte for byte (where a JPEG picture ends too early, decoders fill the rest
/// with grey, or with the last row), and in the last good frame they were not. Rows that are white all over do not count: paper that burns out looks so.
/// A first frame has none before it, so it counts as whole.
class FrameCheck {
 public:
  /// In: whether it is a camera and not a file; of a file, frames may well be the same.
  explicit FrameCheck(bool live) : live_(live) {}

  FrameState look(const Frame& frame);

  /// For a camera that was opened again: forgets the frames before, but not their size.
  void restart();

 private:
  bool isRepeated(const Frame& frame);

  bool live_;
  std::optional<Size> size_{};
  std::vector<std::uint8_t> sample_before_, sample_;  ///< bytes here and there: noise shows in any of them
  std::vector<std::uint8_t> before_;                  ///< the whole frame before, kept only when its sample was that of the one before it
  bool was_so_ = true;  ///< the last good frame's lower rows were the same
};

}  // namespace huewright
