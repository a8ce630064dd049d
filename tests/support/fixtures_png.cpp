// PNG files made by the library; chunks that it does not know are put in by hand.
#include <algorithm>
#include <cmath>
#include <map>
#include <png.h>
#include <stdexcept>
#include <zlib.h>

#include "support/fixtures.hpp"

namespace huewright::fixtures {
namespace {

void number(std::uint8_t* to, std::uint32_t value) {
  for (int i = 0; i < 4; ++i) to[i] = static_cast<std::uint8_t>(value >> (24 - 8 * i));
}

Bytes chunk(const std::string& type, const Bytes& data) {
  Bytes whole(data.size() + 12);
  number(whole.data(), std::uint32_t(data.size()));
  std::copy(type.begin(), type.end(), whole.begin() + 4);
  std::copy(data.begin(), data.end(), whole.begin() + 8);
  number(whole.data() + data.size() + 8, std::uint32_t(crc32_z(0, whole.data() + 4, data.size() + 4)));
  return whole;
}

/// The extra chunks, to stand behind IHDR.
Bytes extras(const PngOptions& options) {
  Bytes out;
  const auto add = [&](const std::string& type, const Bytes& data) {
    const Bytes whole = chunk(type, data);
    out.insert(out.end(), whole.begin(), whole.end());
  };
  const auto fixed = [](double v) { return static_cast<std::uint32_t>(std::lround(v * 1e5)); };
  if (options.code_points) add("cICP", {options.code_points->begin(), options.code_points->end()});
  if (options.gamma) {
    Bytes data(4);
    number(data.data(), fixed(*options.gamma));
    add("gAMA", data);
  }
  if (options.primaries) {
    Bytes data(32);
    for (std::size_t i = 0; i < 8; ++i) number(data.data() + 4 * i, fixed((*options.primaries)[i]));
    add("cHRM", data);
  }
  if (options.srgb) add("sRGB", {0});
  if (!options.profile.empty()) {
    const std::string name{"test\0\0", 6};  // a name, its end, and the only method there is
    uLongf length = compressBound(options.profile.size());
    Bytes data(name.size() + length);
    std::copy(name.begin(), name.end(), data.begin());
    compress(data.data() + name.size(), &length, options.profile.data(), options.profile.size());
    data.resize(name.size() + length);
    add("iCCP", data);
  }
  if (!options.exif.empty()) add("eXIf", options.exif);
  return out;
}

/// The samples of the file's rows.
std::vector<Bytes> rowsOf(const Picture& picture, const PngOptions& options, std::vector<png_color>& palette) {
  std::map<Code3, std::uint8_t> seen;
  std::vector<Bytes> rows(std::size_t(picture.size.height));
  for (int y = 0; y < picture.size.height; ++y)
    for (int x = 0; x < picture.size.width; ++x) {
      const std::uint16_t* rgb = picture.at(x, y);
      Bytes& row = rows[std::size_t(y)];
      const auto put = [&](std::uint16_t v) {
        if (options.bits == 16) row.push_back(static_cast<std::uint8_t>(v >> 8));
        row.push_back(static_cast<std::uint8_t>(v));
      };
      if (options.palette) {
        const Code3 code{rgb[0], rgb[1], rgb[2]};
        if (!seen.contains(code) && palette.size() < 256) {
          seen[code] = static_cast<std::uint8_t>(palette.size());
          palette.push_back({static_cast<png_byte>(rgb[0]), static_cast<png_byte>(rgb[1]), static_cast<png_byte>(rgb[2])});
        }
        row.push_back(seen.contains(code) ? seen[code] : 0);
        continue;
      }
      for (int c = 0; c < (options.grey ? 1 : 3); ++c) put(rgb[c]);
      if (options.alpha) put(static_cast<std::uint16_t>(x * 7));
    }
  return rows;
}

}  // namespace

Bytes png(const Picture& picture, const PngOptions& options) {
  std::vector<png_color> palette;
  std::vector<Bytes> rows = rowsOf(picture, options, palette);
  std::vector<png_bytep> pointers;
  for (Bytes& row : rows) pointers.push_back(row.data());
  Bytes out;
  const auto refuse = [](png_structp, png_const_charp) { throw std::runtime_error("PNG fixture failed"); };
  png_structp writer = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, refuse, nullptr);
  png_infop info = png_create_info_struct(writer);
  png_set_write_fn(writer, &out, [](png_structp p, png_bytep data, std::size_t length) {
    auto* to = static_cast<Bytes*>(png_get_io_ptr(p));
    to->insert(to->end(), data, data + length);
  }, [](png_structp) {});
  const int type = options.palette ? PNG_COLOR_TYPE_PALETTE
                                   : (options.grey ? 0 : PNG_COLOR_MASK_COLOR) | (options.alpha ? PNG_COLOR_MASK_ALPHA : 0);
  png_set_IHDR(writer, info, png_uint_32(picture.size.width), png_uint_32(picture.size.height), options.bits, type,
               options.interlaced ? PNG_INTERLACE_ADAM7 : PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
  if (options.palette) png_set_PLTE(writer, info, palette.data(), int(palette.size()));
  png_set_compression_level(writer, 1);
  png_write_info(writer, info);
  png_write_image(writer, pointers.data());
  png_write_end(writer, nullptr);
  png_destroy_write_struct(&writer, &info);
  const Bytes more = extras(options);
  out.insert(out.begin() + 33, more.begin(), more.end());
  return out;
}

}  // namespace huewright::fixtures
