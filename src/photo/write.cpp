#include "photo/write.hpp"

#include <atomic>
#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <new>
#include <png.h>
#include <string>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <zlib.h>

#include "photo/png_chunks.hpp"

namespace huewright {
namespace {

/// A new file beside the one that is wanted; it is gone again unless it takes that one's place.
class TemporaryFile {
 public:
  explicit TemporaryFile(const std::filesystem::path& wanted) : wanted_(wanted) {
    static std::atomic<unsigned> count{0};
    for (int attempt = 0; attempt < 100 && file_ < 0; ++attempt) {
      path_ = wanted.parent_path() / (".huewright-" + std::to_string(::getpid()) + "-" + std::to_string(count++) + ".part");
      file_ = ::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0644);
      if (file_ < 0 && errno != EEXIST) return;
    }
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  ~TemporaryFile() {
    if (file_ < 0) return;
    ::close(file_);
    ::unlink(path_.c_str());
  }

  bool write(std::string_view bytes) {
    if (file_ < 0) return false;
    while (!bytes.empty()) {
      const ssize_t put = ::write(file_, bytes.data(), bytes.size());
      if (put < 0 && errno == EINTR) continue;
      if (put <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(put));
    }
    return true;
  }

  /// Puts the bytes on the disk and the file in its place.
  bool keep() {
    if (::fsync(file_) != 0) return false;
    const int closed = ::close(file_);
    file_ = -1;
    if (closed != 0 || std::rename(path_.c_str(), wanted_.c_str()) != 0) {
      ::unlink(path_.c_str());
      return false;
    }
    // The new name is put on the disk too, where the file system can do that; the file is whole in any case.
    const auto parent = wanted_.parent_path();
    const int folder = ::open(parent.empty() ? "." : parent.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (folder >= 0) {
      (void)::fsync(folder);
      ::close(folder);
    }
    return true;
  }

 private:
  std::filesystem::path wanted_, path_;
  int file_ = -1;
};

}  // namespace

Result<void> writeWhole(const std::filesystem::path& path, std::string_view bytes) try {
  const std::string shown = path.string();
  if (path.filename().empty()) return fail(Code::WriteFailed, shown);
  // A link is followed, so that it stays a link; a folder, pipe or device is left alone.
  std::error_code error;
  std::filesystem::path target = path;
  if (std::filesystem::is_symlink(std::filesystem::symlink_status(path, error))) {
    target = std::filesystem::weakly_canonical(path, error);
    if (error) return fail(Code::WriteFailed, shown);
  }
  struct stat info {};
  if (::stat(target.c_str(), &info) == 0 && !S_ISREG(info.st_mode)) return fail(Code::WriteFailed, shown);
  TemporaryFile file(target);
  if (!file.write(bytes) || !file.keep()) return fail(Code::WriteFailed, shown);
  return {};
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "writing");
}

namespace {

Result<std::string> pngBytes(const std::filesystem::path& path, Size size, const std::vector<std::uint8_t>& rgb) {
  if (size.width <= 0 || size.height <= 0 ||
      rgb.size() != std::size_t{3} * static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height))
    return fail(Code::Internal, "a picture of the wrong length");
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(size.width);
  image.height = static_cast<png_uint_32>(size.height);
  image.format = PNG_FORMAT_RGB;  // 8-bit sRGB: the library adds the sRGB chunk
  png_alloc_size_t length = PNG_IMAGE_PNG_SIZE_MAX(image);
  std::string bytes(length, '\0');
  const int done = png_image_write_to_memory(&image, bytes.data(), &length, 0, rgb.data(), 0, nullptr);
  png_image_free(&image);
  if (done == 0 || length > bytes.size()) return fail(Code::WriteFailed, path.string());
  bytes.resize(length);
  return bytes;
}

void putBigEndian(std::string& to, std::size_t value) {
  for (const unsigned shift : {24U, 16U, 8U, 0U}) to += static_cast<char>(value >> shift & 0xFF);
}

}  // namespace

Result<void> writePng(const std::filesystem::path& path, Size size, const std::vector<std::uint8_t>& rgb) try {
  const auto bytes = pngBytes(path, size, rgb);
  if (!bytes) return std::unexpected(bytes.error());
  return writeWhole(path, *bytes);
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "writing a picture");
}

Result<void> writeStill(const std::filesystem::path& path, Size size, const std::vector<std::uint8_t>& rgb, const FrameRounding& rounding) try {
  auto bytes = pngBytes(path, size, rgb);
  if (!bytes) return std::unexpected(bytes.error());
  // A chunk is its length, its name, its data and a checksum of the latter two: PNG specification (third edition), 5.3; sRGB has one byte, 11.3.2.5; "Source" is what
  // the picture was made with, 11.3.3.
  constexpr std::size_t kLength = 4, kRest = 12;
  const std::string said = stillText(rounding), text = "tEXt" + said;
  std::string chunk;
  putBigEndian(chunk, said.size());
  chunk += text;
  putBigEndian(chunk, crc32_z(0, reinterpret_cast<const unsigned char*>(text.data()), text.size()));
  const std::size_t name = bytes->find("sRGB");
  if (name == std::string::npos || name > bytes->find("IDAT")) return fail(Code::Internal, "a PNG without the chunk that is to be replaced");
  bytes->replace(name - kLength, kRest + 1, chunk);
  return writeWhole(path, *bytes);
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "writing a picture");
}

}  // namespace huewright
