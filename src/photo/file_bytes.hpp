// The bytes of a picture file.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <span>
#include <vector>

#include "base/limits.hpp"
#include "base/problem.hpp"

namespace huewright {

/// Read-only bytes of a regular file. Ordinary photos are copied into memory, so that a camera or a copying program that
/// rewrites the file meanwhile can do no harm; very large files are mapped.
class FileBytes {
 public:
  /// The kind of file is looked at before it is opened: a pipe or a device never blocks.
  /// Errors: FileMissing, FileIsFolder, FileNotRegular, FileEmpty, FileUnreadable, PhotoTooLarge, OutOfMemory.
  static Result<FileBytes> read(const std::filesystem::path& path, const Limits& limits);

  FileBytes(FileBytes&& other) noexcept;
  FileBytes& operator=(FileBytes&& other) noexcept;
  ~FileBytes();

  std::span<const std::uint8_t> bytes() const;

 private:
  FileBytes() = default;
  std::vector<std::uint8_t> copy_;
  void* map_ = nullptr;
  std::size_t map_size_ = 0;
};

}  // namespace huewright
