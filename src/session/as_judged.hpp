// A photo looked at again after it was judged: opened in the same way, its colours corrected in the same way.
#pragma once

#include <optional>

#include "session/session.hpp"

namespace huewright {

/// The request's first photo, opened as the report's reading took it: as linear, where the chart or the profile told so. Errors: of Photo::open.
Result<Photo> openAsJudged(const JudgeRequest& request, const JudgeReport& report);

// Both of what follows: XYZ (D50), linear, as xyzPixels gives them.

/// A photographed colour through the reading's camera profile, and what a glossy surface mirrors of the room taken off.
Vec3 withoutVeil(const Reading& reading, const Vec3& photographed);

/// The map from such a colour to the colour in even, neutral light at the right exposure. panel: the one that lies at this place; what the slopes inside panel
/// and card told of its brightness goes in as well. Off the panels only the light that greys, paper or chart show does, and a card may come out
/// by some per cent lighter or darker than its reading.
Mat3 toEvenLight(const Reading& reading, Point place, std::optional<std::size_t> panel);

}  // namespace huewright
