// The photograph that the speed of a verdict is measured on.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "photo/geometry.hpp"

namespace huewright::bench {

/// 4000 × 3000 pixels; panel and card 700 × 700 each, a grey patch of 350 × 350, all in the middle band of the picture.
inline constexpr Size kSize{4000, 3000};
inline constexpr Rect kPanel{900, 1150, 700, 700}, kCard{1750, 1150, 700, 700}, kGrey{2600, 1325, 350, 350};

/// The chart's 24 patches, one and a gap every 200 pixels, below the rest.
inline constexpr Rect kChart{1100, 2050, 1200, 800};

/// Writes it as a baseline JPEG, 4:2:0, quality 90, with an sRGB profile and EXIF data; noise and texture as a phone leaves them.
/// Always the same bytes. Throws std::runtime_error when it cannot be written or the chart's colours cannot be read.
void writePhoto(const std::filesystem::path& path, bool with_chart = false);

/// What `huewright` is told about it: "judge", the path, "--panel" and so on.
std::vector<std::string> judgeWords(const std::filesystem::path& path);

}  // namespace huewright::bench
