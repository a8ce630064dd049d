// The chunks of a PNG that stand beside the picture. They are read here and not by the picture's decoder, because that one
// drops a profile it does not like, and a dropped profile would mean wrong colours without a word.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/limits.hpp"
#include "photo/encoding.hpp"
#include "photo/frame_stack.hpp"

namespace huewright {

/// The text of a chunk that tells of a still of a live camera: keyword and value, the latter followed by how its frame was compressed, where it was: ", JPEG steps 0.75 1 1" for luma, Cb
/// and Cr, and ", halved colour". Read strictly.
inline constexpr std::string_view kStillSource{"Source\0live camera", 18};
std::string stillText(const FrameRounding& rounding);
std::optional<FrameRounding> readStillText(std::string_view text);

struct PngHeader {
  std::uint64_t width = 0, height = 0;
  int bits = 8;            ///< of a sample; of an index, for palettes
  int colour_type = 2;     ///< 0 grey, 2 RGB, 3 palette, 4 grey with alpha, 6 RGB with alpha
  bool grey_palette = false;
  ColourTag tag;                   ///< by cICP, iCCP, sRGB, gAMA and cHRM, in this order
  std::vector<std::uint8_t> exif;  ///< from the byte-order mark on; empty when there is none
  std::string software;            ///< of a tEXt chunk
  std::optional<FrameRounding> still;  ///< a tEXt chunk says that it is a still of a live camera
};

/// Walks all chunks; checks the checksums of all but the picture data, which its decoder checks.
/// Errors: PhotoTruncated when a chunk or the closing IEND is missing; PhotoCorrupt; PhotoUnsupported (high dynamic range).
/// Source: ISO/IEC 15948:2004 and the W3C's third edition (2023).
Result<PngHeader> readPngChunks(std::span<const std::uint8_t> png, const Limits& limits, const std::string& shown);

}  // namespace huewright
