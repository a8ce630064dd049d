// Files as text, and the sample series, for tests of what is made of a series.
#pragma once

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace huewright::series_files {

inline const std::filesystem::path kTealSeries = std::filesystem::path(HUEWRIGHT_SOURCE_DIR) / "sample-images/teal-series.json";

inline std::string textOf(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

}  // namespace huewright::series_files
