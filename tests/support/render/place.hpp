// Where a thing lies on the bench, and what it mirrors there.
#pragma once

namespace huewright::render {

/// A place in the plane, pixels of the straight view. Width 0: the scene finds one.
struct Place {
  double x = 0, y = 0, width = 0, height = 0, turn_deg = 0;
};

/// A bright soft-edged reflection; centre and radii as fractions of the thing's width and height.
struct Glare {
  double x = 0.5, y = 0.5, radius_x = 0.25, radius_y = 0.2;
  double strength = 0.6;             ///< added part of white at the centre
  double edge = 0.5;                 ///< part of the radius over which it fades, 0..1
  double power = 2;                  ///< 2: an ellipse; 6: nearly a rectangle, as of a window
  double turn_deg = 0;
};

}  // namespace huewright::render
