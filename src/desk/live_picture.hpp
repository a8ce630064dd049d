// The newest frame of a camera with what lies where in it.
#pragma once

#include "desk/views.hpp"

namespace huewright::desk {

/// Draws it as large as fits into that room (px), at the cursor, with the outlines and names of panels, card and greys; what goes wrong stands on the picture. Takes up the whole room.
void drawLivePicture(const LiveNow& now, float width, float height, Drawing& d);

}  // namespace huewright::desk
