// Every pixel round the pointer, enlarged, and its values.
#pragma once

#include <span>

#include "desk/free_corner.hpp"
#include "desk/photo_place.hpp"
#include "desk/views.hpp"

namespace huewright::desk {

/// Draws what the state's probe holds in a corner of the field away from the pointer (screen pixels), hiding as little as it can of what is `taken`; and asks for the pixel under the pointer when it is another one than was asked for last.
void drawMagnifier(PhotoViewState& view, const PhotoPlace& place, int photo, Point pointer, std::span<const Taken> taken, Drawing& d);

}  // namespace huewright::desk
