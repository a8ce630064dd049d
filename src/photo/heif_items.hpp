// A look at the coded pictures inside a HEIF or AVIF file. Their decoders make something of any bytes, of zeros too: a file
// whose copying stopped half way, with the rest of its length left empty, would come out half grey without a word.
#pragma once

#include <cstdint>
#include <span>

#include "base/problem.hpp"

namespace huewright {

/// Checks the coded data of all HEVC and AV1 pictures of the file. Errors (the detail is left empty): PhotoTruncated when it
/// lies beyond the end of the file; PhotoCorrupt when it holds what no encoder writes: in HEVC units that do not fill the
/// data, end in a zero or hold three zeros in a row; in AV1 32 zeros in a row.
/// What cannot be followed (other box versions, other kinds of items) is passed over.
/// Source: ISO/IEC 14496-12, 8.11.3 and 8.11.6; ITU-T H.265, 7.4.2.
Result<void> checkCodedData(std::span<const std::uint8_t> file);

}  // namespace huewright
