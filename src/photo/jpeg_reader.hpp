// A JPEG decoder with its errors as codes. Warnings about the picture's data count as errors: nothing grey is handed out.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "photo/geometry.hpp"

namespace huewright {

inline constexpr int kMostScans = 100;  ///< a real encoder writes about ten; thousands are made to waste time

/// What stands before the picture.
struct JpegHeader {
  std::uint64_t width = 0, height = 0;
  int components = 0;
  bool ink = false;                   ///< CMYK or YCCK
  bool colour = false;                ///< three channels that can become RGB
  bool subsampled = false;
  bool jfif = false, progressive = false;
  int block_width = 8;                ///< pixels of one interleaved block of all channels
  std::optional<std::array<std::uint16_t, 64>> luminance;  ///< quantisation table, natural order
  std::optional<std::array<double, 3>> rounding;  ///< steps of the block means of the three channels, codes
  std::vector<std::uint8_t> exif;     ///< from the byte-order mark on; empty when there is none
  std::vector<std::uint8_t> profile;  ///< put together from its pieces; empty when there is none
  bool profile_broken = false;        ///< pieces of a profile are there, but do not fit together
};

class JpegReader {
 public:
  /// The bytes must outlive the reader.
  explicit JpegReader(std::span<const std::uint8_t> bytes);
  ~JpegReader();
  JpegReader(const JpegReader&) = delete;
  JpegReader& operator=(const JpegReader&) = delete;

  // Each step is true when it went well; else fault() says why, and the reader is done for.
  // Codes: PhotoTruncated, PhotoCorrupt, PhotoUnsupported, PhotoTooLarge, PhotoEmpty, OutOfMemory.
  Code fault() const;

  /// Reads up to the first scan. The extras (EXIF, profile) are kept only when asked for.
  bool readHeader(bool extras);
  JpegHeader header() const;

  /// Starts decoding to RGB at 1/shrink of the size (1, 2, 4, 8). A picture in several scans is read whole here.
  bool start(int shrink);
  Size output() const;

  /// Narrows the rows to at least the columns [x, x + width), by whole blocks; gives what they became.
  bool crop(int& x, int& width);
  bool skip(int rows);
  /// One row of RGB, as many pixels as the crop left.
  bool read(std::uint8_t* row);

  /// After the last row that is needed: true when the file goes on to its proper end.
  bool finish();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace huewright
