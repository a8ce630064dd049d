// Looking for the end of a JPEG without decoding it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

namespace huewright {

/// True when an end-of-image marker follows position `from` of a JPEG's bytes, where `from` lies in entropy-coded data or at a
/// marker. Stuffed bytes (FF 00) and restart markers are data; other segments are stepped over by their length. What comes
/// after the end marker does not matter. Source: ITU-T T.81, B.1.1.
bool reachesEnd(std::span<const std::uint8_t> jpeg, std::size_t from);

}  // namespace huewright
