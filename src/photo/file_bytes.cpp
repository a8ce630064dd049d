#include "photo/file_bytes.hpp"

#include <cerrno>
#include <fcntl.h>
#include <new>
#include <string>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

namespace huewright {
namespace {

constexpr std::size_t kCopyUpTo = 64U << 20;  // bytes

/// A file descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  int number() const { return number_; }

 private:
  int number_;
};

Code codeOfErrno(int error) {
  switch (error) {
    case ENOENT:
    case ENOTDIR:
    case ENAMETOOLONG:
    case ELOOP: return Code::FileMissing;
    default: return Code::FileUnreadable;
  }
}

std::string megabytes(std::size_t bytes) { return std::to_string((bytes + 999'999) / 1'000'000); }

Result<void> checkKind(const struct stat& info, const std::string& shown, const Limits& limits) {
  if (S_ISDIR(info.st_mode)) return fail(Code::FileIsFolder, shown);
  if (!S_ISREG(info.st_mode)) return fail(Code::FileNotRegular, shown);
  if (info.st_size <= 0) return fail(Code::FileEmpty, shown);
  const auto size = static_cast<std::size_t>(info.st_size);
  if (size > limits.file_bytes)
    return fail(Code::PhotoTooLarge, "\"" + shown + "\" has " + megabytes(size) + " megabytes; " +
                                         megabytes(limits.file_bytes) + " are allowed");
  return {};
}

/// Reads up to size bytes; the number read, or −1.
ssize_t readAll(int file, std::uint8_t* to, std::size_t size) {
  std::size_t have = 0;
  while (have < size) {
    const ssize_t got = ::read(file, to + have, size - have);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return -1;
    if (got == 0) break;
    have += static_cast<std::size_t>(got);
  }
  return static_cast<ssize_t>(have);
}

}  // namespace

Result<FileBytes> FileBytes::read(const std::filesystem::path& path, const Limits& limits) {
  const std::string shown = path.string();
  struct stat info {};
  if (::stat(path.c_str(), &info) != 0) return fail(codeOfErrno(errno), shown);
  if (auto kind = checkKind(info, shown, limits); !kind) return std::unexpected(kind.error());

  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY));
  if (file.number() < 0) return fail(codeOfErrno(errno), shown);
  // Again, on what was really opened: the name may have been given to something else in between.
  if (::fstat(file.number(), &info) != 0) return fail(Code::FileUnreadable, shown);
  if (auto kind = checkKind(info, shown, limits); !kind) return std::unexpected(kind.error());

  FileBytes bytes;
  const auto size = static_cast<std::size_t>(info.st_size);
  if (size > kCopyUpTo) {
    void* map = ::mmap(nullptr, size, PROT_READ, MAP_PRIVATE, file.number(), 0);
    if (map == MAP_FAILED && errno == ENOMEM) return fail(Code::OutOfMemory, "\"" + shown + "\"");
    if (map == MAP_FAILED) return fail(Code::FileUnreadable, shown);
    bytes.map_ = map;
    bytes.map_size_ = size;
    return bytes;
  }
  try {
    bytes.copy_.resize(size);
  } catch (const std::bad_alloc&) {
    return fail(Code::OutOfMemory, "\"" + shown + "\"");
  }
  const ssize_t have = readAll(file.number(), bytes.copy_.data(), size);
  if (have < 0) return fail(Code::FileUnreadable, shown);
  if (have == 0) return fail(Code::FileEmpty, shown);
  bytes.copy_.resize(static_cast<std::size_t>(have));
  return bytes;
}

FileBytes::FileBytes(FileBytes&& other) noexcept
    : copy_(std::move(other.copy_)), map_(std::exchange(other.map_, nullptr)), map_size_(std::exchange(other.map_size_, 0)) {}

FileBytes& FileBytes::operator=(FileBytes&& other) noexcept {
  std::swap(copy_, other.copy_);
  std::swap(map_, other.map_);
  std::swap(map_size_, other.map_size_);
  return *this;
}

FileBytes::~FileBytes() {
  if (map_ != nullptr) ::munmap(map_, map_size_);
}

std::span<const std::uint8_t> FileBytes::bytes() const {
  if (map_ != nullptr) return {static_cast<const std::uint8_t*>(map_), map_size_};
  return copy_;
}

}  // namespace huewright
