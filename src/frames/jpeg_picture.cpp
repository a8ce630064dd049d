#include "frames/jpeg_picture.hpp"

#include <csetjmp>
#include <cstdio>

#include <jpeglib.h>

namespace huewright::frames {
namespace {

/// The library's structures. Its errors jump out of it into unpack(); no frame that is jumped over owns anything.
class JpegUnpacker {
 public:
  JpegUnpacker() {
    info_.err = jpeg_std_error(&errors_);
    info_.client_data = this;
    errors_.error_exit = [](j_common_ptr info) { std::longjmp(static_cast<JpegUnpacker*>(info->client_data)->jump_, 1); };
    errors_.emit_message = [](j_common_ptr, int) {};
    errors_.output_message = [](j_common_ptr) {};
  }
  JpegUnpacker(const JpegUnpacker&) = delete;
  JpegUnpacker& operator=(const JpegUnpacker&) = delete;
  ~JpegUnpacker() { jpeg_destroy_decompress(&info_); }

  HuewrightRead unpack(std::span<const std::uint8_t> bytes, HuewrightRoom room, void* owner, HuewrightSteps& steps) {
    constexpr JDIMENSION kLargestSide = 16384;
    if (bytes.empty()) return without(room, owner);
    if (setjmp(jump_) != 0) return without(room, owner);
    jpeg_create_decompress(&info_);
    jpeg_mem_src(&info_, bytes.data(), bytes.size());
    if (jpeg_read_header(&info_, TRUE) != JPEG_HEADER_OK || info_.image_width > kLargestSide || info_.image_height > kLargestSide) return without(room, owner);
    info_.out_color_space = JCS_RGB;
    info_.dct_method = JDCT_ISLOW;
    std::uint8_t* rgb = room(owner, static_cast<std::int32_t>(info_.image_width), static_cast<std::int32_t>(info_.image_height));
    if (rgb == nullptr) return HuewrightNoRoom;
    jpeg_start_decompress(&info_);
    steps = stepsOfTables();
    while (info_.output_scanline < info_.output_height) {
      JSAMPROW row = rgb + std::size_t{info_.output_scanline} * info_.output_width * 3;
      jpeg_read_scanlines(&info_, &row, 1);
    }
    return HuewrightGot;
  }

 private:
  HuewrightSteps stepsOfTables() const {
    HuewrightSteps steps{};
    if (info_.num_components != 3 || info_.jpeg_color_space != JCS_YCbCr) return steps;
    double* const of[] = {&steps.luma, &steps.blue, &steps.red};
    for (int c = 0; c < 3; ++c) {
      const jpeg_component_info& component = info_.comp_info[c];
      const int table = component.quant_tbl_no;
      if (table < 0 || table >= NUM_QUANT_TBLS || info_.quant_tbl_ptrs[table] == nullptr) return {};
      *of[c] = info_.quant_tbl_ptrs[table]->quantval[0] / 8.0;
      if (component.h_samp_factor < info_.max_h_samp_factor || component.v_samp_factor < info_.max_v_samp_factor) steps.subsampled = 1;
    }
    return steps;
  }

  static HuewrightRead without(HuewrightRoom room, void* owner) {
    room(owner, 0, 0);
    return HuewrightGot;
  }

  jpeg_decompress_struct info_{};
  jpeg_error_mgr errors_{};
  std::jmp_buf jump_{};
};

}  // namespace

HuewrightRead unpackJpeg(std::span<const std::uint8_t> bytes, HuewrightRoom room, void* owner, HuewrightSteps& steps) {
  steps = {};
  return JpegUnpacker().unpack(bytes, room, owner, steps);
}

}  // namespace huewright::frames
