// A look at the boxes of a HEIF or AVIF file, where its decoder is too easily content.
#pragma once

#include <cstdint>
#include <span>

#include "base/problem.hpp"

namespace huewright {

/// True when the file says by its brands that it is HEIC, HEIF or AVIF.
bool isHeif(std::span<const std::uint8_t> file);

/// True when one of its brands is AVIF's.
bool isAvif(std::span<const std::uint8_t> file);

/// Walks the outermost boxes. Errors: PhotoTruncated when a box goes on past the end of the file, or the file ends inside a
/// box's header; PhotoCorrupt when a box's size makes no sense. The detail is left empty.
/// Source: ISO/IEC 14496-12, 4.2.
Result<void> checkBoxes(std::span<const std::uint8_t> file);

/// True when every picture in the file is coded in one channel (HEVC or AV1 configuration boxes); its decoder would make RGB
/// of it without a word. Source: ISO/IEC 14496-15, 8.3.3.1; AV1 in ISOBMFF 1.2, 2.3.3.
bool isMonochrome(std::span<const std::uint8_t> file);

}  // namespace huewright
