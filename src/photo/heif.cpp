// HEIC, HEIF and AVIF files as a source: decoded once, by libheif, and kept.
#include <algorithm>
#include <bit>
#include <libheif/heif.h>
#include <memory>
#include <string_view>
#include <utility>

#include "photo/exif.hpp"
#include "photo/heif_boxes.hpp"
#include "photo/heif_items.hpp"
#include "photo/size_check.hpp"
#include "photo/source.hpp"

namespace huewright {
namespace {

struct Free {
  void operator()(heif_context* p) const { heif_context_free(p); }
  void operator()(heif_image_handle* p) const { heif_image_handle_release(p); }
  void operator()(heif_image* p) const { heif_image_release(p); }
  void operator()(heif_decoding_options* p) const { heif_decoding_options_free(p); }
  void operator()(heif_color_profile_nclx* p) const { heif_nclx_color_profile_free(p); }
};
template <class T>
using Owned = std::unique_ptr<T, Free>;

Problem heifProblem(const heif_error& error, const std::string& shown) {
  const std::string quoted = "\"" + shown + "\"";
  if (error.subcode == heif_suberror_Security_limit_exceeded)
    return {Code::PhotoTooLarge, quoted + " asks for more memory than is allowed"};
  if (error.subcode == heif_suberror_End_of_data) return {Code::PhotoTruncated, shown};
  switch (error.code) {
    case heif_error_Unsupported_feature:
    case heif_error_Unsupported_filetype:
    case heif_error_Plugin_loading_error: return {Code::PhotoUnsupported, quoted + " is a kind of HEIF that is not read here"};
    case heif_error_Memory_allocation_error: return {Code::OutOfMemory, quoted};
    default: return {Code::PhotoCorrupt, shown};
  }
}

/// An opened file and its main picture. The bytes must outlive it.
struct Opened {
  Owned<heif_context> context;
  Owned<heif_image_handle> picture;
};

Result<Opened> openFile(std::span<const std::uint8_t> bytes, const Limits& limits, const std::string& shown) {
  Opened opened{Owned<heif_context>(heif_context_alloc()), nullptr};
  if (!opened.context) return fail(Code::OutOfMemory, "\"" + shown + "\"");
  heif_context_set_maximum_image_size_limit(opened.context.get(), limits.longest_side);
  heif_error error = heif_context_read_from_memory_without_copy(opened.context.get(), bytes.data(), bytes.size(), nullptr);
  heif_image_handle* picture = nullptr;
  if (error.code == heif_error_Ok) error = heif_context_get_primary_image_handle(opened.context.get(), &picture);
  opened.picture.reset(picture);
  if (error.code != heif_error_Ok) return std::unexpected(heifProblem(error, shown));
  return opened;
}

/// The name of an AV1 decoder that keeps quiet about damaged files, where there is one; else the library chooses.
const char* quietAv1Decoder() {
  const heif_decoder_descriptor* decoders[8] = {};
  const int count = heif_get_decoder_descriptors(heif_compression_AV1, decoders, 8);
  for (int i = 0; i < std::min(count, 8); ++i)
    if (const char* id = heif_decoder_descriptor_get_id_name(decoders[i]); id != nullptr && std::string_view(id) == "aom") return id;
  return nullptr;
}

class HeifSource final : public PhotoSource {
 public:
  HeifSource(FileBytes file, const Limits& limits) : limits_(limits), file_(std::move(file)) {}

  Result<void> decode(std::span<const Rect> wanted, int, const RowSink& sink) override {
    if (!image_)
      if (auto done = decodeWhole(); !done) return done;
    int stride = 0;
    const std::uint8_t* plane = heif_image_get_plane_readonly(image_.get(), heif_channel_interleaved, &stride);
    const Sample sample = facts.bits > 8 ? Sample::Code16 : Sample::Code8;
    for (int y = 0; y < stored.height; ++y) {
      const bool needed = std::any_of(wanted.begin(), wanted.end(), [y](const Rect& r) { return y >= r.y && y < r.y + r.height; });
      if (needed) sink({y, 0, stored.width, sample, 3, plane + std::ptrdiff_t{y} * stride});
    }
    return {};
  }

 private:
  Result<void> decodeWhole() {
    const std::string shown = facts.path.string();
    if (auto sound = checkCodedData(file_.bytes()); !sound) return fail(sound.error().code, shown);
    auto opened = openFile(file_.bytes(), limits_, shown);
    if (!opened) return std::unexpected(opened.error());
    const Owned<heif_decoding_options> options(heif_decoding_options_alloc());
    if (!options) return fail(Code::OutOfMemory, "\"" + shown + "\"");
    options->strict_decoding = 1;
    options->convert_hdr_to_8bit = 0;
    if (facts.format == "AVIF") options->decoder_id = quietAv1Decoder();
    const bool deep = facts.bits > 8;
    const heif_chroma words =
        std::endian::native == std::endian::little ? heif_chroma_interleaved_RRGGBB_LE : heif_chroma_interleaved_RRGGBB_BE;
    const heif_chroma layout = deep ? words : heif_chroma_interleaved_RGB;
    heif_image* raw = nullptr;
    const heif_error error = heif_decode_image(opened->picture.get(), &raw, heif_colorspace_RGB, layout, options.get());
    Owned<heif_image> image(raw);
    if (error.code != heif_error_Ok) return std::unexpected(heifProblem(error, shown));
    const bool as_promised = heif_image_get_width(image.get(), heif_channel_interleaved) == stored.width &&
                             heif_image_get_height(image.get(), heif_channel_interleaved) == stored.height &&
                             heif_image_get_bits_per_pixel_range(image.get(), heif_channel_interleaved) == facts.bits;
    int stride = 0;
    const int line = 3 * stored.width * (deep ? 2 : 1);
    if (!as_promised || heif_image_get_plane_readonly(image.get(), heif_channel_interleaved, &stride) == nullptr || stride < line ||
        heif_image_get_decoding_warnings(image.get(), 0, nullptr, 0) != 0)
      return fail(Code::PhotoCorrupt, shown);
    image_ = std::move(image);
    return {};
  }

  Limits limits_;
  FileBytes file_;
  Owned<heif_image> image_;
};

ExifFacts exifOf(const heif_image_handle* picture) {
  heif_item_id id = 0;
  if (heif_image_handle_get_list_of_metadata_block_IDs(picture, "Exif", &id, 1) != 1) return {};
  const std::size_t size = heif_image_handle_get_metadata_size(picture, id);
  if (size < 8 || size > (1U << 24)) return {};
  std::vector<std::uint8_t> data(size);
  if (heif_image_handle_get_metadata(picture, id, data.data()).code != heif_error_Ok) return {};
  // Four bytes say how far behind them the TIFF structure begins. Source: ISO/IEC 23008-12, A.2.1.
  const std::uint64_t skip = 4 + (std::uint64_t{data[0]} << 24 | std::uint64_t{data[1]} << 16 | std::uint64_t{data[2]} << 8 | data[3]);
  if (skip >= size) return {};
  return readExif(std::span(data).subspan(skip));
}

Result<ColourTag> heifColour(const heif_image_handle* picture, const Limits& limits, const std::string& shown) {
  ColourTag tag;
  if (const std::size_t size = heif_image_handle_get_raw_color_profile_size(picture); size > 0) {
    if (size <= limits.profile_bytes) tag.profile.resize(size);
    tag.profile_broken =
        tag.profile.empty() || heif_image_handle_get_raw_color_profile(picture, tag.profile.data()).code != heif_error_Ok;
    return tag;
  }
  heif_color_profile_nclx* raw = nullptr;
  const heif_error error = heif_image_handle_get_nclx_color_profile(picture, &raw);
  const Owned<heif_color_profile_nclx> nclx(raw);
  if (error.code != heif_error_Ok || !nclx) return tag;
  auto named = namedByCodePoints(nclx->color_primaries, nclx->transfer_characteristics, shown);
  if (!named) return std::unexpected(named.error());
  tag.named = *named;
  return tag;
}

}  // namespace

OpenedSource openHeif(FileBytes file, const OpenRequest& request) {
  const std::string shown = request.shown();
  if (auto boxes = checkBoxes(file.bytes()); !boxes) return fail(boxes.error().code, shown);
  auto opened = openFile(file.bytes(), request.limits, shown);
  if (!opened) return std::unexpected(opened.error());
  const heif_image_handle* picture = opened->picture.get();
  const auto size = checkSize(static_cast<std::uint64_t>(std::max(0, heif_image_handle_get_width(picture))),
                              static_cast<std::uint64_t>(std::max(0, heif_image_handle_get_height(picture))), request.limits, shown);
  if (!size) return std::unexpected(size.error());
  if (isMonochrome(file.bytes())) return fail(Code::PhotoOneChannel, shown);
  const int bits = heif_image_handle_get_luma_bits_per_pixel(picture);
  if (bits < 8 || bits > 16) return fail(Code::PhotoUnsupported, "\"" + shown + "\" is a kind of HEIF that is not read here");
  auto tag = heifColour(picture, request.limits, shown);
  if (!tag) return std::unexpected(tag.error());

  const ExifFacts exif = exifOf(picture);
  const bool avif = isAvif(file.bytes());
  // The opened context reads the bytes where they lie; it is done with before they move.
  opened->picture.reset();
  opened->context.reset();
  auto source = std::make_unique<HeifSource>(std::move(file), request.limits);
  source->stored = *size;
  source->turned = 1;  // libheif turns and mirrors by the file's own boxes; EXIF only repeats them
  PhotoFacts& facts = source->facts;
  facts.path = request.path;
  facts.format = avif ? "AVIF" : "HEIF";
  facts.bits = bits;
  facts.camera_data = exif.camera_data;
  source->traces.exif = exif.traces;
  facts.software = exif.software;
  if (!tag->named && tag->profile.empty() && !tag->profile_broken) tag->named = exif.colour;
  auto colour = chooseColour(*tag, request.encoding, facts);
  if (!colour) return std::unexpected(colour.error());
  source->colour = std::move(*colour);
  return source;
}

}  // namespace huewright
