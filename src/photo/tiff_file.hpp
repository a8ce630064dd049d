// A TIFF file opened by its library, silently: what goes wrong is remembered, never printed.
#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <string>

#include "photo/exif.hpp"
#include "photo/geometry.hpp"

namespace huewright {

/// How the picture of the first folder is laid out.
struct TiffLayout {
  std::uint64_t width = 0, height = 0;
  int bits = 1, channels = 1;
  int photometric = -1;       ///< as in the TIFF tag; −1 when it is absent
  int sample_format = 1;      ///< 1 unsigned whole numbers
  int compression = 1;
  int orientation = 1;
  bool separate = false;      ///< each channel in a plane of its own
  bool tiled = false;
  std::uint64_t block_width = 0, block_height = 0;  ///< of a tile or strip, pixels
  std::uint64_t block_bytes = 0;                    ///< unpacked
  bool decodable = false;     ///< the compression is a lossless one that is known here
};

class TiffFile {
 public:
  /// The bytes must outlive the file. Not open() when the header or the first folder cannot be read.
  explicit TiffFile(std::span<const std::uint8_t> bytes);
  ~TiffFile();
  TiffFile(const TiffFile&) = delete;
  TiffFile& operator=(const TiffFile&) = delete;

  bool open() const;
  /// True when a place that the file names lies beyond its end.
  bool pointsBeyondEnd() const;

  TiffLayout layout() const;
  std::span<const std::uint8_t> profile() const;
  bool mentionsProfile() const;              ///< the first folder has the tag, readable or not
  ExifFacts exif();                          ///< the TIFF's own tags and its EXIF folder

  /// True when every strip or tile of the picture is there: its place and length lie inside the file.
  bool allBlocksInside() const;
  bool noBlockMissing() const;               ///< none has a length of zero

  /// Unpacks the block that holds pixel (x, y) of a plane. In: room for block_bytes. Out: true when all `expected` bytes came.
  bool readBlock(int x, int y, int plane, void* to, std::uint64_t expected);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace huewright
