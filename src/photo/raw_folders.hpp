// A look through the folders of a TIFF file for a camera's sensor data, by the file's own bytes: the raw library is asked only
// about files that are raw by their tags, and it is too easily content with data that is not there.
#pragma once

#include <cstdint>
#include <span>

#include "base/problem.hpp"

namespace huewright {

/// What the tags of a TIFF file say about sensor data.
struct RawMarks {
  bool raw = false;      ///< sensor data in some folder, a DNG version, or a maker's mark behind the header
  bool dng = false;      ///< the first folder has a DNG version
  bool sensor = false;   ///< some folder holds a colour filter array or linear raw
  bool beyond = false;   ///< a folder or a list lies beyond the file's end
  bool has_data = false; ///< the largest folder of sensor data points at as much data as its size asks for at least
  bool inside = true;    ///< all that the folders of sensor data point at lies in the file
  bool plain = true;     ///< a DNG's unpacked data lies in one piece, row behind row, as the raw library takes it
  bool enough = true;    ///< … and is as long as its size asks for
  bool closed = true;    ///< each piece of losslessly compressed data begins and ends as it must (JPEG, markers SOI and EOI)
  bool lossy = false;    ///< a DNG's sensor data is compressed with loss
};

/// Walks the chain of folders and the folders below them, at most 64; nothing is set for bytes that are no TIFF.
/// Source: TIFF 6.0, section 2; BigTIFF; DNG 1.6, PhotometricInterpretation, DNGVersion and Compression; ITU-T T.81, B.1.1.
RawMarks findRawMarks(std::span<const std::uint8_t> file);

/// True for the first bytes of the cameras' own containers that are not TIFF, or TIFF with another number in place of 42.
bool isForeignRaw(std::span<const std::uint8_t> file);

/// Whether there is anything in it to read. Errors (the detail is the file's name in quotes and the reason, or the name):
/// PhotoTruncated, PhotoEmpty, PhotoCorrupt, PhotoUnsupported.
Result<void> checkRawMarks(const RawMarks& marks, const std::string& shown);

}  // namespace huewright
