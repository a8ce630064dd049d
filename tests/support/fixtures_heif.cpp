// HEIC and AVIF files made by libheif.
#include <algorithm>
#include <bit>
#include <cstring>
#include <libheif/heif.h>
#include <memory>
#include <stdexcept>

#include "support/fixtures.hpp"

/// The HEVC encoder that makes fixtures leaks a little of its own memory; the leak checker is told to look past it.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() { return "leak:libx265\n"; }

namespace huewright::fixtures {
namespace {

struct Free {
  void operator()(heif_context* p) const { heif_context_free(p); }
  void operator()(heif_encoder* p) const { heif_encoder_release(p); }
  void operator()(heif_image* p) const { heif_image_release(p); }
  void operator()(heif_image_handle* p) const { heif_image_handle_release(p); }
  void operator()(heif_encoding_options* p) const { heif_encoding_options_free(p); }
  void operator()(heif_color_profile_nclx* p) const { heif_nclx_color_profile_free(p); }
};
template <class T>
using Owned = std::unique_ptr<T, Free>;

void check(heif_error error) {
  if (error.code != heif_error_Ok) throw std::runtime_error(std::string("HEIF fixture: ") + error.message);
}

Owned<heif_image> imageOf(const Picture& picture, const HeifOptions& options) {
  const int width = picture.size.width, height = picture.size.height;
  const bool deep = options.bits > 8;
  heif_image* raw = nullptr;
  if (options.grey) {
    check(heif_image_create(width, height, heif_colorspace_monochrome, heif_chroma_monochrome, &raw));
  } else {
    const heif_chroma words =
        std::endian::native == std::endian::little ? heif_chroma_interleaved_RRGGBB_LE : heif_chroma_interleaved_RRGGBB_BE;
    check(heif_image_create(width, height, heif_colorspace_RGB, deep ? words : heif_chroma_interleaved_RGB, &raw));
  }
  Owned<heif_image> image(raw);
  const heif_channel channel = options.grey ? heif_channel_Y : heif_channel_interleaved;
  check(heif_image_add_plane(raw, channel, width, height, options.bits));
  int stride = 0;
  std::uint8_t* plane = heif_image_get_plane(raw, channel, &stride);
  const int channels = options.grey ? 1 : 3;
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x)
      for (int c = 0; c < channels; ++c) {
        const std::uint16_t v = picture.at(x, y)[c];
        std::uint8_t* to = plane + std::ptrdiff_t{y} * stride + (x * channels + c) * (deep ? 2 : 1);
        if (deep)
          std::memcpy(to, &v, 2);
        else
          *to = static_cast<std::uint8_t>(v);
      }
  return image;
}

}  // namespace

Bytes heif(const Picture& picture, const HeifOptions& options) {
  // libheif 1.15 with libaom 3.6 falls over 10-bit and lossless pictures; it reads them well.
  if (options.avif && options.bits != 8) throw std::runtime_error("AVIF fixtures have 8 bits");
  const Owned<heif_image> image = imageOf(picture, options);
  if (!options.profile.empty())
    check(heif_image_set_raw_color_profile(image.get(), "prof", options.profile.data(), options.profile.size()));
  Owned<heif_color_profile_nclx> nclx;
  if (options.code_points || options.lossless) {
    nclx.reset(heif_nclx_color_profile_alloc());
    const auto points = options.code_points.value_or(std::array{2, 2, 0});
    nclx->color_primaries = static_cast<heif_color_primaries>(points[0]);
    nclx->transfer_characteristics = static_cast<heif_transfer_characteristics>(points[1]);
    nclx->matrix_coefficients = static_cast<heif_matrix_coefficients>(options.lossless ? 0 : points[2]);
    nclx->full_range_flag = 1;
    check(heif_image_set_nclx_color_profile(image.get(), nclx.get()));
  }
  const Owned<heif_context> context(heif_context_alloc());
  heif_encoder* raw_encoder = nullptr;
  check(heif_context_get_encoder_for_format(context.get(), options.avif ? heif_compression_AV1 : heif_compression_HEVC, &raw_encoder));
  const Owned<heif_encoder> encoder(raw_encoder);
  heif_encoder_set_lossy_quality(raw_encoder, options.quality);
  if (options.lossless) {
    if (!options.avif) heif_encoder_set_lossless(raw_encoder, 1);
    heif_encoder_set_parameter_string(raw_encoder, "chroma", "444");
  }
  if (options.avif)
    heif_encoder_set_parameter_integer(raw_encoder, "speed", 8);
  else
    heif_encoder_set_parameter_string(raw_encoder, "preset", "ultrafast");
  const Owned<heif_encoding_options> how(heif_encoding_options_alloc());
  how->macOS_compatibility_workaround_no_nclx_profile = 0;
  how->image_orientation = static_cast<heif_orientation>(options.orientation);
  if (nclx) how->output_nclx_profile = nclx.get();
  heif_image_handle* raw_handle = nullptr;
  check(heif_context_encode_image(context.get(), image.get(), raw_encoder, how.get(), &raw_handle));
  const Owned<heif_image_handle> handle(raw_handle);
  if (!options.exif.empty())
    check(heif_context_add_exif_metadata(context.get(), raw_handle, options.exif.data(), static_cast<int>(options.exif.size())));
  Bytes out;
  heif_writer writer{1, [](heif_context*, const void* data, std::size_t size, void* to) -> heif_error {
    const auto* first = static_cast<const std::uint8_t*>(data);
    static_cast<Bytes*>(to)->assign(first, first + size);
    return {heif_error_Ok, heif_suberror_Unspecified, "ok"};
  }};
  check(heif_context_write(context.get(), &writer, &out));
  return out;
}

}  // namespace huewright::fixtures
