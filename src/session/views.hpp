// Second looks at panel and card: in another light, or tilted.
#pragma once

#include <filesystem>
#include <stop_token>

#include "session/shot.hpp"

namespace huewright {

/// Reads and judges the photos of request.also and request.flop, and says what they show together with the first. Each view is read by itself: its own
/// greys, light and profile. In: a report that holds the first photo's verdicts. Errors: of readShot; ViewUnusable.
Result<void> lookAgain(const Shot& first, const JudgeRequest& request, const std::filesystem::path& calib, const Standards& standards, std::stop_token stop,
                       JudgeReport& report);

/// True when panel or card sparkles from pixel to pixel as metal flake does, far beyond the noise on the grey: --flop is worth a photo. Fine pearl is not
/// told from mottle.
bool looksMetallic(const Reading& reading, std::size_t panel);

}  // namespace huewright
