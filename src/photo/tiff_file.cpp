#include "photo/tiff_file.hpp"

#include <algorithm>
#include <array>
#include <cstring>
#include <tiffio.h>
#include <vector>

namespace huewright {
namespace {

template <class T>
T field(TIFF* tiff, std::uint32_t tag, T otherwise) {
  T value{};
  return TIFFGetFieldDefaulted(tiff, tag, &value) == 1 ? value : otherwise;
}

std::string tagText(TIFF* tiff, std::uint32_t tag) {
  const char* value = nullptr;
  if (TIFFGetField(tiff, tag, &value) != 1 || value == nullptr) return {};
  std::string clean;
  for (; *value != 0; ++value)
    if (static_cast<unsigned char>(*value) >= 0x20 && *value != 0x7F) clean.push_back(*value);
  const auto last = clean.find_last_not_of(' ');
  return last == std::string::npos ? std::string{} : clean.substr(0, last + 1);
}

bool known(std::uint16_t compression) {
  constexpr std::array kLossless{COMPRESSION_NONE, COMPRESSION_LZW,      COMPRESSION_ADOBE_DEFLATE, COMPRESSION_DEFLATE,
                                 COMPRESSION_PACKBITS, COMPRESSION_LZMA, COMPRESSION_ZSTD};
  return std::find(kLossless.begin(), kLossless.end(), compression) != kLossless.end() && TIFFIsCODECConfigured(compression) != 0;
}

}  // namespace

struct TiffFile::State {
  std::span<const std::uint8_t> bytes;
  std::uint64_t at = 0;
  bool beyond = false;
  TIFF* tiff = nullptr;

  static State& of(thandle_t handle) { return *static_cast<State*>(handle); }

  static tmsize_t read(thandle_t handle, void* to, tmsize_t count) {
    State& s = of(handle);
    const std::uint64_t size = s.bytes.size();
    const std::uint64_t left = s.at < size ? size - s.at : 0;
    const std::uint64_t got = std::min<std::uint64_t>(left, static_cast<std::uint64_t>(std::max<tmsize_t>(count, 0)));
    if (got < static_cast<std::uint64_t>(count)) s.beyond = true;
    if (got > 0) std::memcpy(to, s.bytes.data() + s.at, got);
    s.at += got;
    return static_cast<tmsize_t>(got);
  }

  static toff_t seek(thandle_t handle, toff_t offset, int from) {
    State& s = of(handle);
    const std::uint64_t base = from == SEEK_CUR ? s.at : from == SEEK_END ? s.bytes.size() : 0;
    s.at = base + offset;
    if (s.at > s.bytes.size()) s.beyond = true;
    return s.at;
  }

  explicit State(std::span<const std::uint8_t> all) : bytes(all) {
    TIFFOpenOptions* options = TIFFOpenOptionsAlloc();
    if (options == nullptr) return;
    const auto silent = [](TIFF*, void*, const char*, const char*, va_list) { return 1; };
    TIFFOpenOptionsSetErrorHandlerExtR(options, silent, nullptr);
    TIFFOpenOptionsSetWarningHandlerExtR(options, silent, nullptr);
    // No mapping ("m"): damaged offsets are then caught by read().
    tiff = TIFFClientOpenExt("picture", "rm", this, read, [](thandle_t, void*, tmsize_t) -> tmsize_t { return -1; }, seek,
                             [](thandle_t) { return 0; }, [](thandle_t h) -> toff_t { return of(h).bytes.size(); }, nullptr,
                             nullptr, options);
    TIFFOpenOptionsFree(options);
  }
  ~State() {
    if (tiff != nullptr) TIFFClose(tiff);
  }
  State(const State&) = delete;
  State& operator=(const State&) = delete;

  std::uint32_t blocks() const { return TIFFIsTiled(tiff) ? TIFFNumberOfTiles(tiff) : TIFFNumberOfStrips(tiff); }
};

TiffFile::TiffFile(std::span<const std::uint8_t> bytes) : state_(std::make_unique<State>(bytes)) {}
TiffFile::~TiffFile() = default;

bool TiffFile::open() const { return state_->tiff != nullptr; }
bool TiffFile::pointsBeyondEnd() const { return state_->beyond; }

TiffLayout TiffFile::layout() const {
  TIFF* tiff = state_->tiff;
  TiffLayout layout;
  layout.width = field<std::uint32_t>(tiff, TIFFTAG_IMAGEWIDTH, 0);
  layout.height = field<std::uint32_t>(tiff, TIFFTAG_IMAGELENGTH, 0);
  layout.bits = field<std::uint16_t>(tiff, TIFFTAG_BITSPERSAMPLE, 1);
  layout.channels = field<std::uint16_t>(tiff, TIFFTAG_SAMPLESPERPIXEL, 1);
  std::uint16_t photometric = 0;
  if (TIFFGetField(tiff, TIFFTAG_PHOTOMETRIC, &photometric) == 1) layout.photometric = photometric;
  layout.sample_format = field<std::uint16_t>(tiff, TIFFTAG_SAMPLEFORMAT, SAMPLEFORMAT_UINT);
  const auto compression = field<std::uint16_t>(tiff, TIFFTAG_COMPRESSION, COMPRESSION_NONE);
  layout.compression = compression;
  layout.decodable = known(compression);
  const int orientation = field<std::uint16_t>(tiff, TIFFTAG_ORIENTATION, 1);
  layout.orientation = orientation >= 1 && orientation <= 8 ? orientation : 1;
  layout.separate = field<std::uint16_t>(tiff, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG) == PLANARCONFIG_SEPARATE;
  layout.tiled = TIFFIsTiled(tiff) != 0;
  if (layout.tiled) {
    layout.block_width = field<std::uint32_t>(tiff, TIFFTAG_TILEWIDTH, 0);
    layout.block_height = field<std::uint32_t>(tiff, TIFFTAG_TILELENGTH, 0);
    layout.block_bytes = static_cast<std::uint64_t>(std::max<tmsize_t>(TIFFTileSize(tiff), 0));
  } else {
    layout.block_width = layout.width;
    layout.block_height = std::min<std::uint64_t>(field<std::uint32_t>(tiff, TIFFTAG_ROWSPERSTRIP, 0xFFFFFFFF), layout.height);
    layout.block_bytes = static_cast<std::uint64_t>(std::max<tmsize_t>(TIFFStripSize(tiff), 0));
  }
  return layout;
}

std::span<const std::uint8_t> TiffFile::profile() const {
  std::uint32_t length = 0;
  const void* data = nullptr;
  if (TIFFGetField(state_->tiff, TIFFTAG_ICCPROFILE, &length, &data) != 1 || data == nullptr) return {};
  return {static_cast<const std::uint8_t*>(data), length};
}

bool TiffFile::mentionsProfile() const {
  // By the folder's own bytes: the library drops a tag that it cannot read. Source: TIFF 6.0, section 2, and BigTIFF.
  const std::span<const std::uint8_t> bytes = state_->bytes;
  const bool big = TIFFIsBigEndian(state_->tiff) != 0, wide = TIFFIsBigTIFF(state_->tiff) != 0;
  const auto number = [&](std::uint64_t at, std::size_t size) {
    std::uint64_t value = 0;
    for (std::size_t i = 0; i < size && at + size <= bytes.size(); ++i)
      value = value << 8 | bytes[static_cast<std::size_t>(at + (big ? i : size - 1 - i))];
    return value;
  };
  const std::uint64_t folder = TIFFCurrentDirOffset(state_->tiff);
  if (folder > bytes.size()) return false;
  const std::uint64_t count = number(folder, wide ? 8 : 2), first = folder + (wide ? 8 : 2), step = wide ? 20 : 12;
  for (std::uint64_t i = 0; i < count && first + i * step < bytes.size(); ++i)
    if (number(first + i * step, 2) == TIFFTAG_ICCPROFILE) return true;
  return false;
}

ExifFacts TiffFile::exif() {
  TIFF* tiff = state_->tiff;
  ExifFacts facts;
  facts.software = tagText(tiff, TIFFTAG_SOFTWARE);
  facts.camera_data = !tagText(tiff, TIFFTAG_MAKE).empty() || !tagText(tiff, TIFFTAG_MODEL).empty();
  std::uint64_t place = 0;
  if (TIFFGetField(tiff, TIFFTAG_EXIFIFD, &place) != 1) return facts;
  if (TIFFReadEXIFDirectory(tiff, place) == 1) {
    double exposure = 0;
    std::uint16_t space = 0;
    facts.camera_data = facts.camera_data || TIFFGetField(tiff, EXIFTAG_EXPOSURETIME, &exposure) == 1;
    if (TIFFGetField(tiff, EXIFTAG_COLORSPACE, &space) == 1) facts.colour = colourByExif(space, {});
  }
  TIFFSetDirectory(tiff, 0);
  return facts;
}

bool TiffFile::allBlocksInside() const {
  const std::uint64_t size = state_->bytes.size();
  const std::uint32_t blocks = state_->blocks();
  for (std::uint32_t i = 0; i < blocks; ++i) {
    const std::uint64_t place = TIFFGetStrileOffset(state_->tiff, i), length = TIFFGetStrileByteCount(state_->tiff, i);
    if (length > size || place > size - length) return false;
  }
  return true;
}

bool TiffFile::noBlockMissing() const {
  const std::uint32_t blocks = state_->blocks();
  // Each takes up bytes of its own in the lists of places and lengths.
  if (blocks == 0 || blocks > state_->bytes.size()) return false;
  for (std::uint32_t i = 0; i < blocks; ++i)
    if (TIFFGetStrileByteCount(state_->tiff, i) == 0 || TIFFGetStrileOffset(state_->tiff, i) == 0) return false;
  return true;
}

bool TiffFile::readBlock(int x, int y, int plane, void* to, std::uint64_t expected) {
  TIFF* tiff = state_->tiff;
  const auto column = static_cast<std::uint32_t>(x), row = static_cast<std::uint32_t>(y);
  const auto sample = static_cast<std::uint16_t>(plane);
  const auto room = static_cast<tmsize_t>(expected);
  if (TIFFIsTiled(tiff) != 0) return TIFFReadEncodedTile(tiff, TIFFComputeTile(tiff, column, row, 0, sample), to, room) == room;
  return TIFFReadEncodedStrip(tiff, TIFFComputeStrip(tiff, row, sample), to, room) == room;
}

}  // namespace huewright
