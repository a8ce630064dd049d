// TIFF files as a source: only the strips or tiles that are needed are unpacked.
#include <algorithm>
#include <utility>

#include "photo/size_check.hpp"
#include "photo/source.hpp"
#include "photo/tiff_file.hpp"

namespace huewright {
namespace {

// TIFF 6.0, sections 8, 22 and 23; DNG 1.6
enum Photometric { kWhiteIsZero = 0, kBlackIsZero = 1, kRgb = 2, kMask = 4, kInk = 5, kCieLab = 8, kIccLab = 9, kItuLab = 10 };

constexpr int kMostChannels = 8;  // R, G, B and what masks and alpha an editor may add

class TiffSource final : public PhotoSource {
 public:
  explicit TiffSource(FileBytes file) : file_(std::move(file)) {}

  Result<void> decode(std::span<const Rect> wanted, int, const RowSink& sink) override {
    TiffFile tiff(file_.bytes());
    const std::string shown = facts.path.string();
    if (!tiff.open()) return fail(Code::PhotoCorrupt, shown);
    const TiffLayout layout = tiff.layout();
    if (layout.width != static_cast<std::uint64_t>(stored.width) || layout.height != static_cast<std::uint64_t>(stored.height))
      return fail(Code::PhotoCorrupt, shown);
    const int width = static_cast<int>(layout.block_width), height = static_cast<int>(layout.block_height);
    std::vector<std::uint8_t> block(layout.block_bytes * (layout.separate ? 3 : 1));
    for (int y = 0; y < stored.height; y += height)
      for (int x = 0; x < stored.width; x += width) {
        const Rect part{x, y, std::min(width, stored.width - x), std::min(height, stored.height - y)};
        const bool needed = std::any_of(wanted.begin(), wanted.end(), [&](const Rect& r) {
          return r.x < part.x + part.width && part.x < r.x + r.width && r.y < part.y + part.height && part.y < r.y + r.height;
        });
        if (!needed) continue;
        if (!readPart(tiff, layout, part, block)) return fail(Code::PhotoCorrupt, shown);
        giveRows(layout, part, block, sink);
      }
    return {};
  }

 private:
  static std::uint64_t pixelBytes(const TiffLayout& layout) {
    return static_cast<std::uint64_t>(layout.bits / 8) * static_cast<std::uint64_t>(layout.separate ? 1 : layout.channels);
  }

  static bool readPart(TiffFile& tiff, const TiffLayout& layout, const Rect& part, std::vector<std::uint8_t>& block) {
    // Tiles are always whole; the last strip may be shorter.
    const std::uint64_t rows = layout.tiled ? layout.block_height : static_cast<std::uint64_t>(part.height);
    const std::uint64_t expected = layout.block_width * rows * pixelBytes(layout);
    if (expected > layout.block_bytes) return false;
    for (int plane = 0; plane < (layout.separate ? 3 : 1); ++plane)
      if (!tiff.readBlock(part.x, part.y, plane, block.data() + static_cast<std::uint64_t>(plane) * layout.block_bytes, expected))
        return false;
    return true;
  }

  void giveRows(const TiffLayout& layout, const Rect& part, const std::vector<std::uint8_t>& block, const RowSink& sink) {
    const Sample sample = layout.bits == 16 ? Sample::Code16 : Sample::Code8;
    const std::uint64_t line = layout.block_width * pixelBytes(layout);
    for (int i = 0; i < part.height; ++i) {
      const std::uint8_t* row = block.data() + static_cast<std::uint64_t>(i) * line;
      if (!layout.separate) {
        sink({part.y + i, part.x, part.width, sample, layout.channels, row});
        continue;
      }
      weave(layout, part.width, row);
      sink({part.y + i, part.x, part.width, sample, 3, woven_.data()});
    }
  }

  /// Three planes into one row of R, G, B.
  void weave(const TiffLayout& layout, int width, const std::uint8_t* row) {
    const std::size_t bytes = static_cast<std::size_t>(layout.bits / 8);
    woven_.resize(3 * bytes * static_cast<std::size_t>(width));
    for (std::size_t plane = 0; plane < 3; ++plane) {
      const std::uint8_t* from = row + plane * layout.block_bytes;
      for (std::size_t i = 0; i < static_cast<std::size_t>(width); ++i)
        std::copy_n(from + i * bytes, bytes, woven_.data() + (3 * i + plane) * bytes);
    }
  }

  FileBytes file_;
  std::vector<std::uint8_t> woven_;
};

/// Whether the picture is one that can be read and measured.
Result<void> checkLayout(const TiffLayout& layout, const std::string& shown) {
  switch (layout.photometric) {
    case kCieLab:
    case kIccLab:
    case kItuLab: return fail(Code::PhotoLab, shown);
    case kInk: return fail(Code::PhotoCmyk, shown);
    case kWhiteIsZero:
    case kBlackIsZero:
    case kMask: return fail(Code::PhotoOneChannel, shown);
    case kRgb: break;
    default: return unsupported(shown, "is a kind of TIFF that is not read here");
  }
  if (layout.channels < 3) return fail(Code::PhotoCorrupt, shown);
  if (layout.channels > kMostChannels) return unsupported(shown, "has more channels than a photo");
  if ((layout.bits != 8 && layout.bits != 16) || (layout.sample_format != 1 && layout.sample_format != 4))
    return unsupported(shown, "is a TIFF whose numbers are not whole ones of 8 or 16 bits");
  if (!layout.decodable) return unsupported(shown, "is compressed in a way that is not read here");
  return {};
}

/// Strips and tiles no larger than the picture may be, all of them in the file.
Result<void> checkBlocks(const TiffFile& tiff, const TiffLayout& layout, const OpenRequest& request) {
  const std::string shown = request.shown();
  if (const auto block = checkSize(layout.block_width, layout.block_height, request.limits, shown); !block)
    return fail(block.error().code == Code::PhotoTooLarge ? Code::PhotoTooLarge : Code::PhotoCorrupt, block.error().detail);
  const std::uint64_t bytes = layout.block_width * layout.block_height * static_cast<std::uint64_t>(layout.bits / 8) *
                              static_cast<std::uint64_t>(layout.separate ? 1 : layout.channels);
  if (layout.block_bytes != bytes) return fail(Code::PhotoCorrupt, shown);
  if (!tiff.noBlockMissing()) return fail(Code::PhotoCorrupt, shown);
  if (!tiff.allBlocksInside()) return fail(Code::PhotoTruncated, shown);
  return {};
}

}  // namespace

OpenedSource openTiff(FileBytes file, const OpenRequest& request) {
  const std::string shown = request.shown();
  TiffFile tiff(file.bytes());
  if (!tiff.open()) return fail(tiff.pointsBeyondEnd() ? Code::PhotoTruncated : Code::PhotoCorrupt, shown);
  const TiffLayout layout = tiff.layout();
  const auto size = checkSize(layout.width, layout.height, request.limits, shown);
  if (!size) return std::unexpected(size.error());
  if (auto good = checkLayout(layout, shown); !good) return std::unexpected(good.error());
  if (auto good = checkBlocks(tiff, layout, request); !good) return std::unexpected(good.error());

  const ExifFacts exif = tiff.exif();
  const auto profile = tiff.profile();
  const bool lost = profile.empty() && tiff.mentionsProfile();
  if (lost && tiff.pointsBeyondEnd()) return fail(Code::PhotoTruncated, shown);
  ColourTag tag{{profile.begin(), profile.end()}, lost || profile.size() > request.limits.profile_bytes, exif.colour};

  auto source = std::make_unique<TiffSource>(std::move(file));
  source->stored = *size;
  source->turned = layout.orientation;
  PhotoFacts& facts = source->facts;
  facts.path = request.path;
  facts.format = "TIFF";
  facts.bits = layout.bits;
  facts.camera_data = exif.camera_data;
  source->traces.exif = exif.traces;
  facts.software = exif.software;
  auto colour = chooseColour(tag, request.encoding, facts);
  if (!colour) return std::unexpected(colour.error());
  source->colour = std::move(*colour);
  return source;
}

}  // namespace huewright
