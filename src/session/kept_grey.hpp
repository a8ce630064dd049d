// The user's own grey patch, measured once and kept as a file.
#pragma once

#include <expected>
#include <filesystem>
#include <string>
#include <string_view>

#include "base/problem.hpp"
#include "judge/known_grey.hpp"
#include "photo/geometry.hpp"

namespace huewright {

/// What is kept. Texts may be empty.
struct KeptGrey {
  KnownGrey colour;
  std::string camera, day;   ///< that the photo was taken with and on, as it says itself; "2024-05-17"
  std::string chart;         ///< whose values it was measured by
  std::string photo;         ///< the file's name, without its folder
  Quad region;               ///< of the patch in it
};

/// The text of the file: JSON, "format": 1, nothing in it that depends on the day (docs/kept-grey.md).
std::string keptGreyText(const KeptGrey& grey);

/// Reads it back. L* from 20 to 100, a* and b* from -30 to 30, deviations above 0 and at most 20; y must agree with L*. Fields that are not known are
/// passed over. Errors, as the end of a sentence: anything else.
std::expected<KeptGrey, std::string> parseKeptGrey(std::string_view text);

/// Errors: KeptGreyUnusable, also for a file that is missing, unreadable or above 1 MB.
Result<KeptGrey> readKeptGrey(const std::filesystem::path& path);

/// Writes it whole or not at all, with the folders that it needs. Errors: WriteFailed.
Result<void> keepGrey(const KeptGrey& grey, const std::filesystem::path& path);

/// True when there was one. Errors: RemoveFailed.
Result<bool> forgetGrey(const std::filesystem::path& path);

/// "L* 49.6 ± 0.5, as a share of white 0.180 ± 0.004; it is slightly bluish (b* −1.2 ± 0.4)": with 95 % intervals.
std::string greyWords(const KnownGrey& grey);

}  // namespace huewright
