// Every pixel round the pointer, enlarged, and its values.
#pragma once

#include "desk/photo_place.hpp"
#include "desk/views.hpp"

namespace huewright::desk {

/// Draws what the state's probe holds beside the pointer (screen pixels), inside the field; and asks for the pixel under the pointer when it is another one than was asked for last.
void drawMagnifier(PhotoViewState& view, const PhotoPlace& place, int photo, Point pointer, Drawing& d);

}  // namespace huewright::desk
