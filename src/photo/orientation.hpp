// EXIF orientation: where a stored pixel lies in the upright picture.
#pragma once

#include "photo/geometry.hpp"

namespace huewright {

/// Whole-pixel map from stored to upright: x' = xx·x + xy·y + x0, y' = yx·x + yy·y + y0. The factors are −1, 0 or 1.
struct Turn {
  int xx = 1, xy = 0, x0 = 0;
  int yx = 0, yy = 1, y0 = 0;
};

/// The turn that makes a stored picture upright. Orientation 1..8 as in EXIF 2.32, 4.6.4; other numbers count as 1.
Turn turnUpright(int orientation, Size stored);

/// Size after turning: sides are swapped for orientations 5..8.
Size uprightSize(int orientation, Size stored);

/// The stored pixels of an upright rectangle.
Rect toStored(const Rect& upright, int orientation, Size stored);

}  // namespace huewright
