// Pictures to files, and nothing in them that depends on the day.
#pragma once

#include <filesystem>

#include "render/scene.hpp"

namespace huewright::render {

struct FileOptions {
  int orientation = 1;       ///< EXIF orientation, 1 or 6; the pixels are stored turned accordingly (JPEG only)
  bool exif = true;          ///< make "Simulated", model "Camera A" … "Camera E"
  char camera = 'a';
  int bits = 16;             ///< of the linear TIFF
};

/// Throw std::runtime_error when the file cannot be written.
void writeJpeg(const std::filesystem::path& path, const Rendered& picture, const FileOptions& options = {});
void writeTiff16(const std::filesystem::path& path, const Rendered& picture, const FileOptions& options = {});

/// One or the other, by picture.style.linear.
void writePicture(const std::filesystem::path& path, const Rendered& picture, const FileOptions& options = {});

struct DngOptions {
  int black = 512, white = 15871;  ///< codes of 14 bits
};

/// An uncompressed colour-filter-array DNG, red at the top left, codes of 14 bits in words of 16: each pixel keeps the one of its three colours that its filter
/// lets through. ColorMatrix1 is for D65, AsShotNeutral what the camera took for white; make "Simulated", model "Camera A" …, and the ISO value.
/// At least 24 pixels wide and high. Throws std::runtime_error when the file cannot be written.
void writeDng(const std::filesystem::path& path, const RawPicture& picture, const DngOptions& options = {});

}  // namespace huewright::render
