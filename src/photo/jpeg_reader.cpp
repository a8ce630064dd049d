#include "photo/jpeg_reader.hpp"

#include <csetjmp>
#include <cstdio>
#include <cstdlib>
#include <cstring>

#include <jpeglib.h>

#include <jerror.h>

#include "photo/jpeg_tail.hpp"

namespace huewright {
namespace {

constexpr int kPaddingBeforeEnd = 16;  // stray bytes before the end marker, as some cameras leave them

Code codeOfError(int message) {
  switch (message) {
    case JERR_OUT_OF_MEMORY: return Code::OutOfMemory;
    case JERR_IMAGE_TOO_BIG: return Code::PhotoTooLarge;
    case JERR_NO_IMAGE: return Code::PhotoEmpty;
    case JERR_BAD_PRECISION:
    case JERR_SOF_UNSUPPORTED:
    case JERR_CCIR601_NOTIMPL:
    case JERR_CONVERSION_NOTIMPL:
    case JERR_FRACT_SAMPLE_NOTIMPL:
    case JERR_NOT_COMPILED:
    case JERR_NOTIMPL: return Code::PhotoUnsupported;
    default: return Code::PhotoCorrupt;
  }
}

}  // namespace

/// The library's structures. Its errors jump out of the library into run(); no frame that is jumped over owns anything.
struct JpegReader::State {
  jpeg_decompress_struct info{};
  jpeg_error_mgr errors{};
  jpeg_source_mgr source{};
  jpeg_progress_mgr progress{};
  std::jmp_buf jump{};
  std::span<const std::uint8_t> bytes;
  Code fault = Code::PhotoCorrupt;
  bool created = false;
  bool in_data = false;  // past the header
  bool several_scans = false;

  static State& of(j_common_ptr info) { return *static_cast<State*>(info->client_data); }
  static State& of(j_decompress_ptr info) { return *static_cast<State*>(info->client_data); }

  [[noreturn]] void leave(Code code) {
    fault = code;
    std::longjmp(jump, 1);
  }

  template <class Step>
  bool run(const Step& step) {
    if (setjmp(jump) != 0) return false;
    step();
    return true;
  }

  void warn() {
    const int* parameter = errors.msg_parm.i;
    switch (errors.msg_code) {
      case JWRN_ADOBE_XFORM:
      case JWRN_JFIF_MAJOR:
      case JWRN_BOGUS_ICC: return;
      case JWRN_EXTRANEOUS_DATA:
        if (!in_data || (parameter[1] == JPEG_EOI && parameter[0] <= kPaddingBeforeEnd)) return;
        break;
      case JWRN_HIT_MARKER:
        if (info.unread_marker == JPEG_EOI) leave(Code::PhotoTruncated);
        break;
      default: break;
    }
    leave(Code::PhotoCorrupt);
  }

  explicit State(std::span<const std::uint8_t> all) : bytes(all) {
    info.err = jpeg_std_error(&errors);
    errors.error_exit = [](j_common_ptr i) { of(i).leave(codeOfError(i->err->msg_code)); };
    errors.emit_message = [](j_common_ptr i, int level) {
      if (level < 0) of(i).warn();
    };
    errors.output_message = [](j_common_ptr) {};
    progress.progress_monitor = [](j_common_ptr i) {
      if (of(i).info.input_scan_number > kMostScans) of(i).leave(Code::PhotoCorrupt);
    };
    source.init_source = [](j_decompress_ptr) {};
    source.fill_input_buffer = [](j_decompress_ptr i) -> boolean { of(i).leave(Code::PhotoTruncated); };
    source.skip_input_data = [](j_decompress_ptr i, long count) {
      if (count <= 0) return;
      if (static_cast<std::size_t>(count) > i->src->bytes_in_buffer) of(i).leave(Code::PhotoTruncated);
      i->src->next_input_byte += count;
      i->src->bytes_in_buffer -= static_cast<std::size_t>(count);
    };
    source.resync_to_restart = jpeg_resync_to_restart;
    source.term_source = [](j_decompress_ptr) {};
    source.next_input_byte = bytes.data();
    source.bytes_in_buffer = bytes.size();
  }

  ~State() {
    if (created) jpeg_destroy_decompress(&info);
  }
  State(const State&) = delete;
  State& operator=(const State&) = delete;

  /// A file in several scans can end cleanly with channels or details missing, and would come out grey or blurred.
  bool allScansThere() const {
    for (int c = 0; c < info.num_components; ++c) {
      if (info.comp_info[c].quant_table == nullptr) return false;
      if (!info.progressive_mode || info.coef_bits == nullptr) continue;
      const int* bits = info.coef_bits[c];
      if (bits[0] != 0 || (c == 0 && bits[1] != 0)) return false;
      for (int i = 1; i < DCTSIZE2; ++i)
        if (bits[i] > 0) return false;
    }
    return true;
  }
};

JpegReader::JpegReader(std::span<const std::uint8_t> bytes) : state_(std::make_unique<State>(bytes)) {}
JpegReader::~JpegReader() = default;

Code JpegReader::fault() const { return state_->fault; }

bool JpegReader::readHeader(bool extras) {
  State& s = *state_;
  return s.run([&s, extras] {
    s.info.client_data = &s;  // create clears the structure, but keeps this and err
    jpeg_create_decompress(&s.info);
    s.created = true;
    s.info.src = &s.source;
    s.info.progress = &s.progress;
    if (extras) {
      jpeg_save_markers(&s.info, JPEG_APP0 + 1, 0xFFFF);
      jpeg_save_markers(&s.info, JPEG_APP0 + 2, 0xFFFF);
    }
    jpeg_read_header(&s.info, TRUE);
    s.in_data = true;
    s.several_scans = jpeg_has_multiple_scans(&s.info) != FALSE;
  });
}

JpegHeader JpegReader::header() const {
  jpeg_decompress_struct& info = state_->info;
  JpegHeader header;
  header.width = info.image_width;
  header.height = info.image_height;
  header.components = info.num_components;
  header.ink = info.jpeg_color_space == JCS_CMYK || info.jpeg_color_space == JCS_YCCK;
  header.colour = info.num_components == 3 && (info.jpeg_color_space == JCS_YCbCr || info.jpeg_color_space == JCS_RGB);
  header.jfif = info.saw_JFIF_marker != FALSE;
  header.progressive = info.progressive_mode != FALSE;
  header.block_width = info.max_h_samp_factor * DCTSIZE;
  for (int c = 0; c < info.num_components; ++c)
    header.subsampled = header.subsampled || info.comp_info[c].h_samp_factor < info.max_h_samp_factor ||
                        info.comp_info[c].v_samp_factor < info.max_v_samp_factor;
  const int table = info.num_components > 0 ? info.comp_info[0].quant_tbl_no : -1;
  if (table >= 0 && table < NUM_QUANT_TBLS && info.quant_tbl_ptrs[table] != nullptr) {
    header.luminance.emplace();
    std::memcpy(header.luminance->data(), info.quant_tbl_ptrs[table]->quantval, sizeof *header.luminance);
  }
  if (info.num_components == 3 && info.jpeg_color_space == JCS_YCbCr) {
    std::array<double, 3> steps{};
    for (std::size_t c = 0; c < 3; ++c) {
      const int of = info.comp_info[c].quant_tbl_no;
      if (of >= 0 && of < NUM_QUANT_TBLS && info.quant_tbl_ptrs[of] != nullptr) steps[c] = info.quant_tbl_ptrs[of]->quantval[0] / 8.0;
    }
    if (steps[0] > 0 && steps[1] > 0 && steps[2] > 0) header.rounding = steps;
  }

  constexpr char kExif[] = "Exif\0";  // six bytes with the closing zero
  constexpr char kIcc[] = "ICC_PROFILE";
  bool pieces = false;
  for (const jpeg_marker_struct* m = info.marker_list; m != nullptr; m = m->next) {
    if (m->marker == JPEG_APP0 + 1 && header.exif.empty() && m->data_length > sizeof kExif &&
        std::memcmp(m->data, kExif, sizeof kExif) == 0)
      header.exif.assign(m->data + sizeof kExif, m->data + m->data_length);
    pieces = pieces ||
             (m->marker == JPEG_APP0 + 2 && m->data_length >= sizeof kIcc && std::memcmp(m->data, kIcc, sizeof kIcc) == 0);
  }
  if (!pieces) return header;
  JOCTET* profile = nullptr;
  unsigned length = 0;
  if (state_->run([&] { header.profile_broken = jpeg_read_icc_profile(&info, &profile, &length) == FALSE; }) &&
      !header.profile_broken)
    header.profile.assign(profile, profile + length);
  else
    header.profile_broken = true;
  std::free(profile);
  return header;
}

bool JpegReader::start(int shrink) {
  State& s = *state_;
  return s.run([&s, shrink] {
    s.info.out_color_space = JCS_RGB;
    s.info.dct_method = JDCT_ISLOW;
    s.info.do_fancy_upsampling = TRUE;
    s.info.do_block_smoothing = FALSE;
    s.info.scale_num = static_cast<unsigned>(8 / shrink);
    s.info.scale_denom = 8;
    jpeg_start_decompress(&s.info);
    if (s.several_scans && !s.allScansThere()) s.leave(Code::PhotoTruncated);
  });
}

Size JpegReader::output() const {
  return {static_cast<int>(state_->info.output_width), static_cast<int>(state_->info.output_height)};
}

bool JpegReader::crop(int& x, int& width) {
  State& s = *state_;
  return s.run([&] {
    auto left = static_cast<JDIMENSION>(x), across = static_cast<JDIMENSION>(width);
    jpeg_crop_scanline(&s.info, &left, &across);
    x = static_cast<int>(left);
    width = static_cast<int>(across);
  });
}

bool JpegReader::skip(int rows) {
  State& s = *state_;
  return s.run([&s, rows] {
    const auto wanted = static_cast<JDIMENSION>(rows);
    if (wanted > 0 && jpeg_skip_scanlines(&s.info, wanted) != wanted) s.leave(Code::PhotoCorrupt);
  });
}

bool JpegReader::read(std::uint8_t* row) {
  State& s = *state_;
  return s.run([&s, row] {
    JSAMPROW rows[1] = {row};
    if (jpeg_read_scanlines(&s.info, rows, 1) != 1) s.leave(Code::PhotoCorrupt);
  });
}

bool JpegReader::finish() {
  State& s = *state_;
  if (s.several_scans) return true;  // start() has read on to the end marker
  if (s.info.unread_marker == JPEG_EOI) return true;
  if (reachesEnd(s.bytes, static_cast<std::size_t>(s.source.next_input_byte - s.bytes.data()))) return true;
  s.fault = Code::PhotoTruncated;
  return false;
}

}  // namespace huewright
