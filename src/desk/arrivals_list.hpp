// Photos that came into the followed folder, with their verdicts.
#pragma once

#include "desk/views.hpp"

namespace huewright::desk {

/// The list, the newest first, as rows that can be chosen: a band's shape, the colours of panel and card, the name and what is said. What is chosen stands in the view; a double click opens it.
/// All of it in the current window, which scrolls.
void drawArrivals(LiveViewState& view, Drawing& d);

/// The one that is chosen, or nullptr.
const Arrival* chosenArrival(const LiveViewState& view, const SittingState& state);

/// What opening one does: it is judged as it was when it came, with what was told of mix and coats, or by its tags alone.
Action openingOf(const Arrival& arrival);

}  // namespace huewright::desk
