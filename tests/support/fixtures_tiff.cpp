// TIFF files made by the library, in memory.
#include <algorithm>
#include <cstring>
#include <stdexcept>
#include <tiffio.h>

#include "support/fixtures.hpp"

namespace huewright::fixtures {
namespace {

struct Memory {
  Bytes bytes;
  std::uint64_t at = 0;
};

Memory& of(thandle_t handle) { return *static_cast<Memory*>(handle); }

tmsize_t readMemory(thandle_t handle, void* to, tmsize_t count) {
  Memory& m = of(handle);
  const std::uint64_t got = std::min<std::uint64_t>(std::uint64_t(count), m.bytes.size() - std::min<std::uint64_t>(m.at, m.bytes.size()));
  std::memcpy(to, m.bytes.data() + m.at, got);
  m.at += got;
  return tmsize_t(got);
}

tmsize_t writeMemory(thandle_t handle, void* from, tmsize_t count) {
  Memory& m = of(handle);
  if (m.bytes.size() < m.at + std::uint64_t(count)) m.bytes.resize(m.at + std::uint64_t(count));
  std::memcpy(m.bytes.data() + m.at, from, std::size_t(count));
  m.at += std::uint64_t(count);
  return count;
}

toff_t seekMemory(thandle_t handle, toff_t offset, int from) {
  Memory& m = of(handle);
  m.at = (from == SEEK_CUR ? m.at : from == SEEK_END ? m.bytes.size() : 0) + offset;
  return m.at;
}

/// Samples of a rectangle, row by row; beyond the picture's edge zeros. One plane only, or all channels.
Bytes samples(const Picture& picture, const TiffOptions& options, int channels, Rect part, int plane) {
  Bytes out;
  for (int y = part.y; y < part.y + part.height; ++y)
    for (int x = part.x; x < part.x + part.width; ++x)
      for (int c = 0; c < channels; ++c) {
        if (plane >= 0 && c != plane) continue;
        const bool inside = x < picture.size.width && y < picture.size.height;
        const std::uint16_t v = !inside ? std::uint16_t(0) : c < 3 ? picture.at(x, y)[c] : static_cast<std::uint16_t>(x * 7);
        std::uint8_t raw[4] = {};
        const float f = static_cast<float>(v) / 65535.0F;
        if (options.floating)
          std::memcpy(raw, &f, 4);
        else if (options.bits == 16)
          std::memcpy(raw, &v, 2);
        else
          raw[0] = static_cast<std::uint8_t>(v);
        out.insert(out.end(), raw, raw + (options.floating ? 4 : options.bits / 8));
      }
  return out;
}

}  // namespace

Bytes tiff(const Picture& picture, const TiffOptions& options) {
  Memory memory;
  std::string mode = "w";
  mode += options.big_endian ? "b" : "l";
  mode += options.big_tiff ? "8" : "4";
  TIFF* t = TIFFClientOpen("fixture", mode.c_str(), &memory, readMemory, writeMemory, seekMemory, [](thandle_t) { return 0; },
                           [](thandle_t h) -> toff_t { return of(h).bytes.size(); }, nullptr, nullptr);
  if (t == nullptr) throw std::runtime_error("TIFF fixture failed");
  const bool one = options.photometric == 1 || options.photometric == 32803;
  const int channels = (one ? 1 : options.photometric == 5 ? 4 : 3) + (options.alpha ? 1 : 0);
  const Size size = picture.size;
  TIFFSetField(t, TIFFTAG_IMAGEWIDTH, size.width);
  TIFFSetField(t, TIFFTAG_IMAGELENGTH, size.height);
  TIFFSetField(t, TIFFTAG_BITSPERSAMPLE, options.floating ? 32 : options.bits);
  TIFFSetField(t, TIFFTAG_SAMPLEFORMAT, options.floating ? SAMPLEFORMAT_IEEEFP : SAMPLEFORMAT_UINT);
  TIFFSetField(t, TIFFTAG_SAMPLESPERPIXEL, channels);
  TIFFSetField(t, TIFFTAG_PHOTOMETRIC, options.photometric);
  TIFFSetField(t, TIFFTAG_PLANARCONFIG, options.separate ? PLANARCONFIG_SEPARATE : PLANARCONFIG_CONTIG);
  TIFFSetField(t, TIFFTAG_COMPRESSION, options.compression);
  TIFFSetField(t, TIFFTAG_ORIENTATION, options.orientation);
  if (options.predictor) TIFFSetField(t, TIFFTAG_PREDICTOR, PREDICTOR_HORIZONTAL);
  if (options.alpha) {
    const std::uint16_t kind = EXTRASAMPLE_UNASSALPHA;
    TIFFSetField(t, TIFFTAG_EXTRASAMPLES, 1, &kind);
  }
  if (!options.make.empty()) TIFFSetField(t, TIFFTAG_MAKE, options.make.c_str());
  if (!options.software.empty()) TIFFSetField(t, TIFFTAG_SOFTWARE, options.software.c_str());
  if (!options.profile.empty()) TIFFSetField(t, TIFFTAG_ICCPROFILE, std::uint32_t(options.profile.size()), options.profile.data());
  const int block_width = options.tile > 0 ? options.tile : size.width;
  const int block_height = options.tile > 0 ? options.tile : options.rows_per_strip;
  if (options.tile > 0) {
    TIFFSetField(t, TIFFTAG_TILEWIDTH, options.tile);
    TIFFSetField(t, TIFFTAG_TILELENGTH, options.tile);
  } else {
    TIFFSetField(t, TIFFTAG_ROWSPERSTRIP, options.rows_per_strip);
  }
  bool good = true;
  for (int plane = 0; plane < (options.separate ? channels : 1); ++plane)
    for (int y = 0; y < size.height; y += block_height)
      for (int x = 0; x < size.width; x += block_width) {
        const Rect part{x, y, block_width, options.tile > 0 ? block_height : std::min(block_height, size.height - y)};
        Bytes data = samples(picture, options, channels, part, options.separate ? plane : -1);
        const auto sample = static_cast<std::uint16_t>(plane);
        const auto length = static_cast<tmsize_t>(data.size());
        const auto column = std::uint32_t(x), row = std::uint32_t(y);
        const tmsize_t put = options.tile > 0 ? TIFFWriteEncodedTile(t, TIFFComputeTile(t, column, row, 0, sample), data.data(), length)
                                              : TIFFWriteEncodedStrip(t, TIFFComputeStrip(t, row, sample), data.data(), length);
        good = good && put == length;
      }
  TIFFClose(t);
  if (!good) throw std::runtime_error("TIFF fixture failed");
  return memory.bytes;
}

}  // namespace huewright::fixtures
