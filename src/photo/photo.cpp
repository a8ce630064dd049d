#include "photo/photo.hpp"

#include <algorithm>
#include <initializer_list>
#include <new>
#include <utility>

#include "photo/code_watch.hpp"
#include "photo/collect.hpp"
#include "photo/file_bytes.hpp"
#include "photo/heif_boxes.hpp"
#include "photo/raw_folders.hpp"
#include "photo/shrink.hpp"
#include "photo/source.hpp"

namespace huewright {
namespace {

bool startsWith(std::span<const std::uint8_t> bytes, std::initializer_list<std::uint8_t> signature) {
  return bytes.size() >= signature.size() && std::equal(signature.begin(), signature.end(), bytes.begin());
}

using Opener = OpenedSource (*)(FileBytes, const OpenRequest&);

/// Who can read these bytes; by their content, whatever the file is called.
Opener openerFor(std::span<const std::uint8_t> bytes) {
  if (startsWith(bytes, {0xFF, 0xD8, 0xFF})) return openJpeg;
  if (startsWith(bytes, {0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'})) return openPng;
  if (startsWith(bytes, {'I', 'I', 42, 0}) || startsWith(bytes, {'M', 'M', 0, 42}) || startsWith(bytes, {'I', 'I', 43, 0}) ||
      startsWith(bytes, {'M', 'M', 0, 43}))
    return findRawMarks(bytes).raw ? openRaw : openTiff;
  if (isForeignRaw(bytes)) return openRaw;
  if (isHeif(bytes)) return openHeif;
  return nullptr;
}

/// A picture that is already linear XYZ in memory.
class MemorySource final : public PhotoSource {
 public:
  explicit MemorySource(std::vector<float> xyz) : xyz_(std::move(xyz)) {}

  Result<void> decode(std::span<const Rect> wanted, int, const RowSink& sink) override {
    int first = stored.height, end = 0;
    for (const Rect& rect : wanted) {
      first = std::min(first, rect.y);
      end = std::max(end, rect.y + rect.height);
    }
    const std::size_t line = std::size_t{3} * static_cast<std::size_t>(stored.width);
    for (int y = first; y < end; ++y)
      sink({y, 0, stored.width, Sample::Xyz, 3, xyz_.data() + line * static_cast<std::size_t>(y)});
    return {};
  }

 private:
  std::vector<float> xyz_;
};

std::string rectInWords(const Rect& r) {
  return std::to_string(r.x) + "," + std::to_string(r.y) + "," + std::to_string(r.width) + "," + std::to_string(r.height);
}

Result<void> checkInside(const Rect& r, Size size) {
  const bool inside = r.x >= 0 && r.y >= 0 && r.width > 0 && r.height > 0 && std::int64_t{r.x} + r.width <= size.width &&
                      std::int64_t{r.y} + r.height <= size.height;
  if (inside) return {};
  return fail(Code::RegionOutside, "The rectangle " + rectInWords(r) + " does not lie inside the picture, which is " +
                                       std::to_string(size.width) + " by " + std::to_string(size.height) + " pixels");
}

std::unexpected<Problem> noMemory(const PhotoFacts& facts) {
  return fail(Code::OutOfMemory, "\"" + facts.path.string() + "\"");
}

}  // namespace

Photo::Photo(std::unique_ptr<PhotoSource> source) : source_(std::move(source)) {}
Photo::Photo(Photo&&) noexcept = default;
Photo& Photo::operator=(Photo&&) noexcept = default;
Photo::~Photo() = default;

Result<Photo> Photo::open(const std::filesystem::path& path, const Limits& limits, Encoding encoding) try {
  auto file = FileBytes::read(path, limits);
  if (!file) return std::unexpected(std::move(file.error()));
  const Opener opener = openerFor(file->bytes());
  if (opener == nullptr) return fail(Code::FormatUnknown, path.string());
  auto source = opener(std::move(*file), {path, limits, encoding});
  if (!source) return std::unexpected(std::move(source.error()));
  PhotoFacts& facts = (*source)->facts;
  facts.size = uprightSize((*source)->turned, (*source)->stored);
  facts.orientation = (*source)->turned;
  return Photo(std::move(*source));
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "\"" + path.string() + "\"");
}

Photo Photo::fromMemory(Size size, std::vector<float> xyz, PhotoFacts facts) {
  // A buffer of the wrong length is made to fit, so that no row can lie outside it.
  size = {std::max(size.width, 0), std::max(size.height, 0)};
  xyz.resize(std::size_t{3} * static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height));
  auto source = std::make_unique<MemorySource>(std::move(xyz));
  facts.size = size;
  facts.orientation = 1;
  source->facts = std::move(facts);
  source->stored = size;
  source->colour = alreadyXyz();
  return Photo(std::move(source));
}

const PhotoFacts& Photo::facts() const { return source_->facts; }

const Traces& Photo::traces() {
  if (!std::exchange(looked_back_, true)) source_->lookBack();
  return source_->traces;
}

Result<void> Photo::decode(std::span<const Rect> wanted, int shrink, const RowSink& sink) {
  const bool lossless = facts().format == "PNG" || facts().format == "TIFF";
  if (watched_ || !lossless || facts().bits != 8) return source_->decode(wanted, shrink, sink);
  CodeWatch watch(source_->stored);
  auto done = source_->decode(wanted, shrink, [&](const StoredRow& row) {
    watch.take(row);
    sink(row);
  });
  if (!done) return done;
  source_->traces.codes = watch.result();
  watched_ = true;
  return done;
}

Result<Preview> Photo::preview(int max_side) try {
  const Size stored = source_->stored;
  if (stored.width == 0 || stored.height == 0) return fail(Code::PhotoEmpty, facts().path.string());
  const int shrink = source_->shrink(1.0 / Shrinker::scaleFor(stored, max_side));
  Shrinker shrinker(*source_, max_side, shrink);
  const Rect whole{0, 0, stored.width, stored.height};
  if (auto done = decode(std::span(&whole, 1), shrink, [&](const StoredRow& row) { shrinker.take(row); }); !done)
    return std::unexpected(std::move(done.error()));
  if (!shrinker.complete()) return fail(Code::PhotoCorrupt, facts().path.string());
  return shrinker.finish();
} catch (const std::bad_alloc&) {
  return noMemory(facts());
}

Result<std::vector<Raster>> Photo::pixels(std::span<const Rect> rects) try {
  for (const Rect& rect : rects)
    if (auto inside = checkInside(rect, size()); !inside) return std::unexpected(std::move(inside.error()));
  if (rects.empty()) return std::vector<Raster>{};
  Collector collector(*source_, rects);
  if (auto done = decode(collector.stored(), 1, [&](const StoredRow& row) { collector.take(row); }); !done)
    return std::unexpected(std::move(done.error()));
  if (!collector.complete()) return fail(Code::PhotoCorrupt, facts().path.string());
  auto rasters = collector.release();
  for (Raster& raster : rasters) raster.rounding = facts().rounding;
  return rasters;
} catch (const std::bad_alloc&) {
  return noMemory(facts());
}

}  // namespace huewright
