// The frame header of a JPEG, found without a decoder.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>

#include "photo/geometry.hpp"

namespace huewright {

struct JpegFrame {
  std::size_t height_at = 0;  ///< place of the two bytes of the height, high byte first
  Size size;                  ///< pixels; may hold zeros
};

/// The first header of a frame of the baseline, extended or progressive kind. Nothing when there is none before the first scan, or the file ends
/// before it. Source: ITU-T T.81, B.2.
std::optional<JpegFrame> findFrame(std::span<const std::uint8_t> jpeg);

}  // namespace huewright
