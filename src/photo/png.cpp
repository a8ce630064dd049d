// PNG files as a source.
#include <bit>
#include <csetjmp>
#include <cstring>
#include <png.h>
#include <utility>

#include "photo/exif.hpp"
#include "photo/png_chunks.hpp"
#include "photo/size_check.hpp"
#include "photo/source.hpp"

namespace huewright {
namespace {

/// The library's structures. Its errors jump into run(); no frame that is jumped over owns anything.
class PngReader {
 public:
  explicit PngReader(std::span<const std::uint8_t> bytes) : bytes_(bytes) {}
  ~PngReader() {
    if (png_ != nullptr) png_destroy_read_struct(&png_, &info_, nullptr);
  }
  PngReader(const PngReader&) = delete;
  PngReader& operator=(const PngReader&) = delete;

  Code fault() const { return fault_; }
  bool interlaced() const { return passes_ > 1; }
  std::size_t rowBytes() const { return row_bytes_; }
  std::uint64_t width() const { return width_; }
  std::uint64_t height() const { return height_; }

  bool start() {
    return run([this] {
      png_ = png_create_read_struct(PNG_LIBPNG_VER_STRING, this, [](png_structp png, png_const_charp) {
        std::longjmp(static_cast<PngReader*>(png_get_error_ptr(png))->jump_, 1);
      }, [](png_structp, png_const_charp) {});
      if (png_ != nullptr) info_ = png_create_info_struct(png_);
      if (info_ == nullptr) {
        fault_ = Code::OutOfMemory;
        std::longjmp(jump_, 1);
      }
      png_set_read_fn(png_, this, [](png_structp png, png_bytep to, std::size_t count) {
        static_cast<PngReader*>(png_get_io_ptr(png))->give(to, count);
      });
      png_set_crc_action(png_, PNG_CRC_ERROR_QUIT, PNG_CRC_ERROR_QUIT);
      // Chunks beside the picture have been read already.
      png_set_keep_unknown_chunks(png_, PNG_HANDLE_CHUNK_NEVER, nullptr, -1);
      png_read_info(png_, info_);
      if (png_get_color_type(png_, info_) == PNG_COLOR_TYPE_PALETTE) png_set_palette_to_rgb(png_);
      if (std::endian::native == std::endian::little && png_get_bit_depth(png_, info_) == 16) png_set_swap(png_);
      png_set_strip_alpha(png_);
      passes_ = png_set_interlace_handling(png_);
      png_read_update_info(png_, info_);
      row_bytes_ = png_get_rowbytes(png_, info_);
      width_ = png_get_image_width(png_, info_);
      height_ = png_get_image_height(png_, info_);
      channels_ = png_get_channels(png_, info_);
    });
  }
  int channels() const { return channels_; }

  bool readRow(std::uint8_t* row) {
    return run([this, row] { png_read_row(png_, row, nullptr); });
  }
  bool readAll(std::uint8_t** rows) {
    return run([this, rows] { png_read_image(png_, rows); });
  }
  bool finish() {
    return run([this] { png_read_end(png_, nullptr); });
  }

 private:
  template <class Step>
  bool run(const Step& step) {
    if (setjmp(jump_) != 0) return false;
    step();
    return true;
  }

  void give(std::uint8_t* to, std::size_t count) {
    if (count > bytes_.size() - at_) {
      fault_ = Code::PhotoTruncated;
      png_error(png_, "the file ends");
    }
    std::memcpy(to, bytes_.data() + at_, count);
    at_ += count;
  }

  std::span<const std::uint8_t> bytes_;
  std::size_t at_ = 0;
  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
  std::jmp_buf jump_{};
  Code fault_ = Code::PhotoCorrupt;
  int passes_ = 1, channels_ = 0;
  std::size_t row_bytes_ = 0;
  std::uint64_t width_ = 0, height_ = 0;
};

class PngSource final : public PhotoSource {
 public:
  explicit PngSource(FileBytes file) : file_(std::move(file)) {}

  Result<void> decode(std::span<const Rect>, int, const RowSink& sink) override {
    PngReader reader(file_.bytes());
    const auto failed = [&] {
      const std::string shown = facts.path.string();
      return fail(reader.fault(), reader.fault() == Code::OutOfMemory ? "\"" + shown + "\"" : shown);
    };
    if (!reader.start()) return failed();
    const Sample sample = facts.bits == 16 ? Sample::Code16 : Sample::Code8;
    const std::size_t expected = std::size_t{3} * static_cast<std::size_t>(stored.width) * (facts.bits == 16 ? 2 : 1);
    if (reader.channels() != 3 || reader.rowBytes() != expected || reader.width() != static_cast<std::uint64_t>(stored.width) ||
        reader.height() != static_cast<std::uint64_t>(stored.height))
      return fail(Code::PhotoCorrupt, facts.path.string());

    // An interlaced picture is complete only at its end; any other is handed over row by row.
    const std::size_t lines = reader.interlaced() ? static_cast<std::size_t>(stored.height) : 1;
    std::vector<std::uint8_t> pixels(expected * lines);
    if (reader.interlaced()) {
      std::vector<std::uint8_t*> rows(lines);
      for (std::size_t y = 0; y < lines; ++y) rows[y] = pixels.data() + y * expected;
      if (!reader.readAll(rows.data())) return failed();
    }
    for (int y = 0; y < stored.height; ++y) {
      std::uint8_t* row = pixels.data() + (lines > 1 ? static_cast<std::size_t>(y) * expected : 0);
      if (!reader.interlaced() && !reader.readRow(row)) return failed();
      sink({y, 0, stored.width, sample, 3, row});
    }
    if (!reader.finish()) return failed();
    return {};
  }

 private:
  FileBytes file_;
};

}  // namespace

OpenedSource openPng(FileBytes file, const OpenRequest& request) {
  const std::string shown = request.shown();
  auto header = readPngChunks(file.bytes(), request.limits, shown);
  if (!header) return std::unexpected(header.error());
  const auto size = checkSize(header->width, header->height, request.limits, shown);
  if (!size) return std::unexpected(size.error());
  const bool grey = header->colour_type == PNG_COLOR_TYPE_GRAY || header->colour_type == PNG_COLOR_TYPE_GRAY_ALPHA;
  if (grey || (header->colour_type == PNG_COLOR_TYPE_PALETTE && header->grey_palette)) return fail(Code::PhotoOneChannel, shown);

  const ExifFacts exif = readExif(header->exif);
  auto source = std::make_unique<PngSource>(std::move(file));
  source->stored = *size;
  source->turned = exif.orientation;
  PhotoFacts& facts = source->facts;
  facts.path = request.path;
  facts.format = "PNG";
  facts.bits = header->bits == 16 ? 16 : 8;
  facts.camera_data = exif.camera_data;
  source->traces.exif = exif.traces;
  source->traces.live = header->still.has_value();
  if (header->still) {
    facts.rounding = header->still->steps;
    facts.chroma_subsampled = header->still->chroma_subsampled;
  }
  source->traces.alpha = header->colour_type == PNG_COLOR_TYPE_RGB_ALPHA;
  facts.software = exif.software.empty() ? header->software : exif.software;
  auto colour = chooseColour(header->tag, request.encoding, facts);
  if (!colour) return std::unexpected(colour.error());
  source->colour = std::move(*colour);
  return source;
}

}  // namespace huewright
