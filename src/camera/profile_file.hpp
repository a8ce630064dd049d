// A camera profile as a file.
#pragma once

#include <expected>
#include <filesystem>
#include <string>
#include <string_view>

#include "base/problem.hpp"
#include "camera/profile.hpp"

namespace huewright {

/// The text of a profile: JSON, "format": 1, numbers with all their digits, no date, so that the same profile is the same text.
/// In: a profile with a map.
std::string profileText(const CameraProfile& profile);

/// Reads it back, bit by bit the same, with the kind File. Strict: every field must be there, once, of its kind and size, finite and within its
/// range, and no other. Errors: one plain sentence; never a profile that was read in part.
std::expected<CameraProfile, std::string> parseProfile(std::string_view text);

/// Writes by way of a temporary file and a rename. Errors: WriteFailed.
Result<void> writeProfile(const CameraProfile& profile, const std::filesystem::path& path);

/// Errors: a sentence that names the file: missing, unreadable, above 1 MB, or what parseProfile says.
std::expected<CameraProfile, std::string> readProfileFile(const std::filesystem::path& path);

}  // namespace huewright
