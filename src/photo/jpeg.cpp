// JPEG files as a source: only the blocks that are needed are turned back into pixels.
#include <algorithm>
#include <utility>

#include "photo/double_quantisation.hpp"
#include "photo/exif.hpp"
#include "photo/jpeg_history.hpp"
#include "photo/jpeg_quality.hpp"
#include "photo/jpeg_reader.hpp"
#include "photo/size_check.hpp"
#include "photo/source.hpp"

namespace huewright {
namespace {

constexpr int kWorthSkipping = 32;  // rows; nearer rectangles are read in one go
constexpr int kLookedBackAt = 1'000'000;  // pixels: more takes longer and tells little more

/// Rows [first, end).
struct Rows {
  int first = 0, end = 0;
};

/// The rows that some rectangle needs, from top to bottom, close ones joined.
std::vector<Rows> neededRows(std::span<const Rect> wanted) {
  std::vector<Rows> rows;
  for (const Rect& r : wanted) rows.push_back({r.y, r.y + r.height});
  std::sort(rows.begin(), rows.end(), [](Rows a, Rows b) { return a.first < b.first; });
  std::vector<Rows> joined;
  for (const Rows& next : rows) {
    if (!joined.empty() && next.first <= joined.back().end + kWorthSkipping)
      joined.back().end = std::max(joined.back().end, next.end);
    else
      joined.push_back(next);
  }
  return joined;
}

Problem jpegProblem(Code code, const std::string& shown) {
  switch (code) {
    case Code::PhotoUnsupported: return {code, "\"" + shown + "\" is a kind of JPEG that is not read here"};
    case Code::PhotoTooLarge: return {code, "\"" + shown + "\" is more than 65500 pixels long"};
    case Code::OutOfMemory: return {code, "\"" + shown + "\""};
    default: return {code, shown};
  }
}

class JpegSource final : public PhotoSource {
 public:
  JpegSource(FileBytes file, int block_width) : file_(std::move(file)), block_width_(block_width) {}

  int shrink(double most) const override {
    // The library's fast transforms are those for halves.
    return most >= 8 ? 8 : most >= 4 ? 4 : most >= 2 ? 2 : 1;
  }

  void lookBack() override { traces.compressed_twice = doubleQuantisation(coefficientCounts(file_.bytes(), kLookedBackAt)).twice; }

  Result<void> decode(std::span<const Rect> wanted, int shrink, const RowSink& sink) override {
    JpegReader reader(file_.bytes());
    const auto failed = [&] { return std::unexpected(jpegProblem(reader.fault(), facts.path.string())); };
    if (!reader.readHeader(false) || !reader.start(shrink)) return failed();

    if (shrink == 1 && reader.output() != stored) return fail(Code::PhotoCorrupt, facts.path.string());

    int x = 0, width = reader.output().width;
    std::vector<Rows> rows{{0, reader.output().height}};
    if (shrink == 1) {
      rows = neededRows(wanted);
      narrow(wanted, x, width);
      if (width < reader.output().width && !reader.crop(x, width)) return failed();
    }
    std::vector<std::uint8_t> line(std::size_t{3} * static_cast<std::size_t>(reader.output().width));
    int y = 0;
    for (const Rows& part : rows) {
      if (!reader.skip(part.first - y)) return failed();
      for (y = part.first; y < part.end; ++y) {
        if (!reader.read(line.data())) return failed();
        sink({y, x, width, Sample::Code8, 3, line.data()});
      }
    }
    if (!reader.finish()) return failed();
    return {};
  }

 private:
  /// The columns to decode: chroma is smoothed across block edges, so that a block more on each side keeps every pixel exact.
  void narrow(std::span<const Rect> wanted, int& x, int& width) const {
    int left = stored.width, right = 0;
    for (const Rect& r : wanted) {
      left = std::min(left, r.x);
      right = std::max(right, r.x + r.width);
    }
    left = std::max(0, left - block_width_);
    right = std::min(stored.width, right + block_width_);
    x = left;
    width = right - left;
  }

  FileBytes file_;
  int block_width_;
};

}  // namespace

OpenedSource openJpeg(FileBytes file, const OpenRequest& request) {
  const std::string shown = request.shown();
  JpegReader reader(file.bytes());
  if (!reader.readHeader(true)) return std::unexpected(jpegProblem(reader.fault(), shown));
  JpegHeader header = reader.header();
  const auto size = checkSize(header.width, header.height, request.limits, shown);
  if (!size) return std::unexpected(size.error());
  if (header.ink) return fail(Code::PhotoCmyk, shown);
  if (header.components == 1) return fail(Code::PhotoOneChannel, shown);
  if (!header.colour) return std::unexpected(jpegProblem(Code::PhotoUnsupported, shown));

  const ExifFacts exif = readExif(header.exif);
  ColourTag tag{std::move(header.profile), header.profile_broken, exif.colour};
  if (tag.profile.size() > request.limits.profile_bytes) tag.profile_broken = true;

  auto source = std::make_unique<JpegSource>(std::move(file), header.block_width);
  source->stored = *size;
  source->turned = exif.orientation;
  PhotoFacts& facts = source->facts;
  facts.path = request.path;
  facts.format = "JPEG";
  facts.bits = 8;
  facts.camera_data = exif.camera_data;
  facts.software = exif.software;
  facts.chroma_subsampled = header.subsampled;
  facts.rounding = header.rounding;
  if (header.luminance) facts.jpeg_quality = estimateQuality(*header.luminance);
  source->traces.exif = exif.traces;
  source->traces.jfif = header.jfif;
  source->traces.progressive = header.progressive;
  source->traces.scaled_tables = header.luminance && onLibraryScale(*header.luminance);
  auto colour = chooseColour(tag, request.encoding, facts);
  if (!colour) return std::unexpected(colour.error());
  source->colour = std::move(*colour);
  return source;
}

}  // namespace huewright
