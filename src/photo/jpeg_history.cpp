#include "photo/jpeg_history.hpp"

#include <algorithm>
#include <array>
#include <csetjmp>
#include <cstdio>
#include <cstdlib>

#include <jpeglib.h>

#include "photo/jpeg_frame.hpp"
#include "photo/jpeg_reader.hpp"

namespace huewright {
namespace {

constexpr std::size_t kCounted = 64;  // sizes 0..63
// ITU-T T.81, figure A.6: the first nine places after the mean, in natural order (row × 8 + column).
constexpr std::array<int, 9> kPlaces{1, 8, 16, 9, 2, 3, 10, 17, 24};
constexpr std::array<std::uint8_t, 2> kEnd{0xFF, 0xD9};

/// The library's structures, reading a file whose header was made to say that it is lower than it is. No frame that an error jumps over owns anything.
class MarkerReader {
 public:
  MarkerReader(std::span<const std::uint8_t> header, std::span<const std::uint8_t> rest) : header_(header), rest_(rest) {
    info_.err = jpeg_std_error(&errors_);
    errors_.error_exit = [](j_common_ptr info) { std::longjmp(static_cast<MarkerReader*>(info->client_data)->jump_, 1); };
    errors_.emit_message = [](j_common_ptr, int) {};
    errors_.output_message = [](j_common_ptr) {};
    progress_.progress_monitor = [](j_common_ptr info) {
      auto* self = static_cast<MarkerReader*>(info->client_data);
      if (self->info_.input_scan_number > kMostScans) std::longjmp(self->jump_, 1);
    };
    source_.init_source = [](j_decompress_ptr) {};
    source_.fill_input_buffer = [](j_decompress_ptr info) -> boolean {
      static_cast<MarkerReader*>(info->client_data)->fill();
      return TRUE;
    };
    source_.skip_input_data = [](j_decompress_ptr info, long count) {
      jpeg_source_mgr& source = *info->src;
      auto left = static_cast<std::size_t>(std::max(0L, count));
      while (left > source.bytes_in_buffer) {
        left -= source.bytes_in_buffer;
        if (static_cast<MarkerReader*>(info->client_data)->ended_) return;
        source.fill_input_buffer(info);
      }
      source.next_input_byte += left;
      source.bytes_in_buffer -= left;
    };
    source_.resync_to_restart = jpeg_resync_to_restart;
    source_.term_source = [](j_decompress_ptr) {};
    source_.next_input_byte = header_.data();
    source_.bytes_in_buffer = header_.size();
  }
  ~MarkerReader() {
    if (created_) jpeg_destroy_decompress(&info_);
  }
  MarkerReader(const MarkerReader&) = delete;
  MarkerReader& operator=(const MarkerReader&) = delete;

  bool count(std::vector<CoefficientCounts>& counts) {
    if (setjmp(jump_) != 0) return false;
    info_.client_data = this;
    jpeg_create_decompress(&info_);
    created_ = true;
    info_.src = &source_;
    info_.progress = &progress_;
    jpeg_read_header(&info_, TRUE);
    if (info_.num_components != 3 || info_.jpeg_color_space != JCS_YCbCr) return false;
    jvirt_barray_ptr* arrays = jpeg_read_coefficients(&info_);
    const jpeg_component_info& luma = info_.comp_info[0];
    if (arrays == nullptr || luma.quant_table == nullptr) return false;
    for (std::size_t i = 0; i < kPlaces.size(); ++i) counts[i].step = luma.quant_table->quantval[kPlaces[i]];
    // Blocks at the right and lower rim are filled up beyond the picture.
    const JDIMENSION across = info_.image_width / DCTSIZE, down = info_.image_height / DCTSIZE;
    for (JDIMENSION y = 0; y < down; ++y) {
      JBLOCKARRAY row = info_.mem->access_virt_barray(reinterpret_cast<j_common_ptr>(&info_), arrays[0], y, 1, FALSE);
      for (JDIMENSION x = 0; x < across; ++x)
        for (std::size_t i = 0; i < kPlaces.size(); ++i) {
          const auto size = static_cast<std::size_t>(std::abs(int{row[0][x][kPlaces[i]]}));
          if (size < kCounted) ++counts[i].counts[size];
        }
    }
    return true;
  }

 private:
  void fill() {
    const std::span<const std::uint8_t> next = in_rest_ ? std::span<const std::uint8_t>(kEnd) : rest_;
    ended_ = in_rest_;
    in_rest_ = true;
    source_.next_input_byte = next.data();
    source_.bytes_in_buffer = next.size();
  }

  std::span<const std::uint8_t> header_, rest_;
  bool in_rest_ = false, ended_ = false, created_ = false;
  jpeg_decompress_struct info_{};
  jpeg_error_mgr errors_{};
  jpeg_source_mgr source_{};
  jpeg_progress_mgr progress_{};
  std::jmp_buf jump_{};
};

}  // namespace

std::vector<CoefficientCounts> coefficientCounts(std::span<const std::uint8_t> jpeg, std::int64_t pixels) {
  const auto frame = findFrame(jpeg);
  if (!frame || frame->size.height < 1 || frame->size.width < 1) return {};
  constexpr int kUnit = 32;  // the highest block of all channels
  const int rows = static_cast<int>(std::clamp<std::int64_t>(pixels / frame->size.width / kUnit * kUnit, kUnit, 65500));
  std::vector<std::uint8_t> header(jpeg.begin(), jpeg.begin() + static_cast<std::ptrdiff_t>(frame->height_at) + 2);
  if (rows < frame->size.height) {
    header[frame->height_at] = static_cast<std::uint8_t>(rows >> 8);
    header[frame->height_at + 1] = static_cast<std::uint8_t>(rows & 255);
  }
  std::vector<CoefficientCounts> counts(kPlaces.size(), CoefficientCounts{1, std::vector<std::uint32_t>(kCounted)});
  MarkerReader reader(header, jpeg.subspan(header.size()));
  if (!reader.count(counts)) return {};
  return counts;
}

}  // namespace huewright
