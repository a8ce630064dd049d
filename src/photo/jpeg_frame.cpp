#include "photo/jpeg_frame.hpp"

namespace huewright {

std::optional<JpegFrame> findFrame(std::span<const std::uint8_t> jpeg) {
  if (jpeg.size() < 2 || jpeg[0] != 0xFF || jpeg[1] != 0xD8) return std::nullopt;
  const auto word = [&](std::size_t at) { return jpeg[at] << 8 | jpeg[at + 1]; };
  for (std::size_t at = 2; at + 9 <= jpeg.size();) {
    if (jpeg[at] != 0xFF) return std::nullopt;
    const std::uint8_t code = jpeg[at + 1];
    if (code == 0xFF) {
      ++at;  // any number of FFs may stand before a marker's code
      continue;
    }
    if (code >= 0xC0 && code <= 0xC2) return JpegFrame{at + 5, {word(at + 7), word(at + 5)}};
    if (code == 0xD9 || code == 0xDA) return std::nullopt;
    at += 2 + static_cast<std::size_t>(word(at + 2));
  }
  return std::nullopt;
}

}  // namespace huewright
