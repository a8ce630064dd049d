#include "photo/jpeg_tail.hpp"

#include <cstring>

namespace huewright {

bool reachesEnd(std::span<const std::uint8_t> jpeg, std::size_t from) {
  const std::size_t size = jpeg.size();
  while (from < size) {
    const void* found = std::memchr(jpeg.data() + from, 0xFF, size - from);
    if (found == nullptr) return false;
    std::size_t at = static_cast<std::size_t>(static_cast<const std::uint8_t*>(found) - jpeg.data());
    while (at < size && jpeg[at] == 0xFF) ++at;  // any number of FFs may stand before a marker's code
    if (at >= size) return false;
    const std::uint8_t code = jpeg[at++];
    if (code == 0xD9) return true;
    from = at;
    const bool bare = code == 0x00 || code == 0x01 || (code >= 0xD0 && code <= 0xD8);
    if (bare) continue;
    if (size - at < 2) return false;
    from = at + (static_cast<std::size_t>(jpeg[at]) << 8 | jpeg[at + 1]);
  }
  return false;
}

}  // namespace huewright
