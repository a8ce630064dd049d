// A file to keep a sitting in that no other window writes meanwhile.
#pragma once

#include <filesystem>

namespace huewright {

class MemoryPlace {
 public:
  /// Nothing is kept.
  MemoryPlace() = default;
  /// The wanted file; while another window holds it, the first that is free of "name-2", "name-3" … beside it. A window holds a file by a lock (flock) on a file of that name with ".lock" at its
  /// end, which goes with its process, however that ends. Where locks cannot be had the wanted file is taken. In: a path in a folder that is there, or an empty one.
  explicit MemoryPlace(const std::filesystem::path& wanted);
  MemoryPlace(MemoryPlace&& other) noexcept;
  MemoryPlace& operator=(MemoryPlace&& other) noexcept;
  ~MemoryPlace();

  const std::filesystem::path& file() const { return file_; }
  /// Another window holds the wanted file.
  bool beside() const { return beside_; }

 private:
  std::filesystem::path file_;
  bool beside_ = false;
  int lock_ = -1;
};

}  // namespace huewright
