// A folder of its own for a test, gone again at the end.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <span>
#include <stdexcept>
#include <string>

namespace huewright::fixtures {

class TempDir {
 public:
  TempDir() {
    std::string name = (std::filesystem::temp_directory_path() / "huewright-test-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = name;
  }
  TempDir(const TempDir&) = delete;
  TempDir& operator=(const TempDir&) = delete;
  ~TempDir() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }

  const std::filesystem::path& path() const { return path_; }

  /// Writes a file into the folder and gives its path.
  std::filesystem::path put(const std::string& name, std::span<const unsigned char> bytes) const {
    const auto path = path_ / name;
    std::filesystem::remove(path);  // writing over an old file makes some file systems wait for the disk
    std::ofstream file(path, std::ios::binary | std::ios::trunc);
    file.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    if (!file.flush()) throw std::runtime_error("cannot write " + path.string());
    return path;
  }

 private:
  std::filesystem::path path_;
};

}  // namespace huewright::fixtures
