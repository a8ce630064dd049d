// Pictures exactly as large as a screen.
#pragma once

#include "photo/geometry.hpp"

namespace huewright {

/// True when the picture is exactly as large as a usual screen of a telephone, tablet or computer, upright or across. The list is from memory and
/// will age; what is not on it is not noticed.
bool isScreenSize(Size size);

}  // namespace huewright
