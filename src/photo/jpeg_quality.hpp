// How hard a JPEG was compressed.
#pragma once

#include <array>
#include <cstdint>

namespace huewright {

/// The quality 1..100 whose scaled sample table lies nearest to this luminance quantisation table (natural order).
/// Exact for tables of the Independent JPEG Group's scale, else the nearest by the sum of absolute differences.
/// Source: ITU-T T.81, table K.1; scaling as in the Independent JPEG Group's software, release 6b.
int estimateQuality(const std::array<std::uint16_t, 64>& luminance);

/// True when the table is exactly one of that scale, as most programs and some cameras write them.
bool onLibraryScale(const std::array<std::uint16_t, 64>& luminance);

}  // namespace huewright
