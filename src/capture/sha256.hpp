// What tells one file's content from another's, whatever it is called.
#pragma once

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <string_view>

#include "base/limits.hpp"
#include "base/problem.hpp"

namespace huewright {

/// SHA-256 of the bytes as 64 small hexadecimal digits. Source: FIPS 180-4. Errors: Internal when the library does not have it.
Result<std::string> sha256(std::span<const std::uint8_t> bytes);

/// That of a file's content, read whole. Errors: those of FileBytes::read; Internal.
Result<std::string> sha256OfFile(const std::filesystem::path& path, const Limits& limits = {});

/// Whether the text is what sha256() gives.
bool isSha256(std::string_view text);

}  // namespace huewright
