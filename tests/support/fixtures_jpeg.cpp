// JPEG files made by the library, and a plain decode to compare with.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <stdexcept>

#include <jpeglib.h>

#include "support/fixtures.hpp"

namespace huewright::fixtures {
namespace {

/// Thrown out of the library: nothing in between needs unwinding but its own plain frames.
[[noreturn]] void refuse(j_common_ptr) { throw std::runtime_error("JPEG fixture failed"); }

class Encoder {
 public:
  explicit Encoder(Size size, int components, J_COLOR_SPACE space) {
    info.err = jpeg_std_error(&errors_);
    errors_.error_exit = refuse;
    jpeg_create_compress(&info);
    jpeg_mem_dest(&info, &buffer_, &length_);
    info.image_width = static_cast<JDIMENSION>(size.width);
    info.image_height = static_cast<JDIMENSION>(size.height);
    info.input_components = components;
    info.in_color_space = space;
    jpeg_set_defaults(&info);
  }
  ~Encoder() {
    jpeg_destroy_compress(&info);
    std::free(buffer_);
  }
  Encoder(const Encoder&) = delete;
  Encoder& operator=(const Encoder&) = delete;

  void row(std::vector<std::uint8_t>& samples) {
    JSAMPROW rows[] = {samples.data()};
    jpeg_write_scanlines(&info, rows, 1);
  }
  Bytes finish() {
    jpeg_finish_compress(&info);
    return {buffer_, buffer_ + length_};
  }

  jpeg_compress_struct info{};

 private:
  jpeg_error_mgr errors_{};
  unsigned char* buffer_ = nullptr;
  unsigned long length_ = 0;
};

}  // namespace

Bytes jpeg(const Picture& picture, const JpegOptions& options) {
  Encoder encoder(picture.size, 3, JCS_RGB);
  jpeg_compress_struct& info = encoder.info;
  jpeg_set_quality(&info, options.quality, TRUE);
  info.comp_info[0].h_samp_factor = options.h;
  info.comp_info[0].v_samp_factor = options.v;
  info.restart_interval = static_cast<unsigned>(options.restart);
  static const jpeg_scan_info kSeparate[] = {
      {1, {0, 0, 0, 0}, 0, 63, 0, 0}, {1, {1, 0, 0, 0}, 0, 63, 0, 0}, {1, {2, 0, 0, 0}, 0, 63, 0, 0}};
  if (options.separate_scans) {
    info.scan_info = kSeparate;
    info.num_scans = 3;
  }
  info.arith_code = options.arithmetic ? TRUE : FALSE;
  if (options.progressive) jpeg_simple_progression(&info);
  jpeg_start_compress(&info, TRUE);
  if (!options.exif.empty()) {
    Bytes segment{'E', 'x', 'i', 'f', 0, 0};
    segment.insert(segment.end(), options.exif.begin(), options.exif.end());
    jpeg_write_marker(&info, JPEG_APP0 + 1, segment.data(), static_cast<unsigned>(segment.size()));
  }
  if (!options.profile.empty()) jpeg_write_icc_profile(&info, options.profile.data(), static_cast<unsigned>(options.profile.size()));
  std::vector<std::uint8_t> row(3 * std::size_t(picture.size.width));
  for (int y = 0; y < picture.size.height; ++y) {
    std::transform(picture.at(0, y), picture.at(0, y) + row.size(), row.begin(),
                   [](std::uint16_t c) { return static_cast<std::uint8_t>(c); });
    encoder.row(row);
  }
  return encoder.finish();
}

Bytes greyJpeg(Size size) {
  Encoder encoder(size, 1, JCS_GRAYSCALE);
  jpeg_start_compress(&encoder.info, TRUE);
  std::vector<std::uint8_t> row(std::size_t(size.width), 90);
  for (int y = 0; y < size.height; ++y) encoder.row(row);
  return encoder.finish();
}

Bytes cmykJpeg(Size size) {
  Encoder encoder(size, 4, JCS_CMYK);
  jpeg_set_colorspace(&encoder.info, JCS_YCCK);
  jpeg_start_compress(&encoder.info, TRUE);
  std::vector<std::uint8_t> row(4 * std::size_t(size.width), 90);
  for (int y = 0; y < size.height; ++y) encoder.row(row);
  return encoder.finish();
}

Picture decodeJpeg(const Bytes& jpeg) {
  jpeg_decompress_struct info{};
  jpeg_error_mgr errors{};
  info.err = jpeg_std_error(&errors);
  errors.error_exit = refuse;
  jpeg_create_decompress(&info);
  jpeg_mem_src(&info, jpeg.data(), static_cast<unsigned long>(jpeg.size()));
  jpeg_read_header(&info, TRUE);
  info.out_color_space = JCS_RGB;
  info.dct_method = JDCT_ISLOW;
  jpeg_start_decompress(&info);
  Picture picture = flat({static_cast<int>(info.output_width), static_cast<int>(info.output_height)}, {0, 0, 0});
  std::vector<std::uint8_t> row(3 * std::size_t(info.output_width));
  JSAMPROW rows[] = {row.data()};
  for (int y = 0; y < picture.size.height; ++y) {
    jpeg_read_scanlines(&info, rows, 1);
    std::copy(row.begin(), row.end(), picture.at(0, y));
  }
  jpeg_finish_decompress(&info);
  jpeg_destroy_decompress(&info);
  return picture;
}

}  // namespace huewright::fixtures
