// Pictures to files, and nothing in them that depends on the day.
#pragma once

#include <filesystem>

#include "render/scene.hpp"

namespace huewright::render {

struct FileOptions {
  int orientation = 1;       ///< EXIF orientation, 1 or 6; the pixels are stored turned accordingly (JPEG only)
  bool exif = true;          ///< make "Simulated", model "Camera A" … "Camera C"
  char camera = 'a';
  int bits = 16;             ///< of the linear TIFF
};

/// Throw std::runtime_error when the file cannot be written.
void writeJpeg(const std::filesystem::path& path, const Rendered& picture, const FileOptions& options = {});
void writeTiff16(const std::filesystem::path& path, const Rendered& picture, const FileOptions& options = {});

/// One or the other, by picture.style.linear.
void writePicture(const std::filesystem::path& path, const Rendered& picture, const FileOptions& options = {});

}  // namespace huewright::render
