// Writing pictures. Every writer goes through a temporary file and a rename, so that nothing half written is left.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "photo/frame_stack.hpp"
#include "photo/geometry.hpp"

namespace huewright {

/// Writes text or bytes to a file by way of a temporary file in the same folder and a rename.
/// Errors: WriteFailed.
Result<void> writeWhole(const std::filesystem::path& path, std::string_view bytes);

/// Writes 8-bit sRGB (interleaved) as a PNG tagged sRGB. Errors: WriteFailed.
Result<void> writePng(const std::filesystem::path& path, Size size, const std::vector<std::uint8_t>& rgb);

/// Writes a live camera's frame as a PNG that says so (stillText), and nothing of what its codes mean, which such a camera does not tell. Errors: WriteFailed.
/// In: how the frame was compressed, which is told too.
Result<void> writeStill(const std::filesystem::path& path, Size size, const std::vector<std::uint8_t>& rgb, const FrameRounding& rounding = {});

}  // namespace huewright
