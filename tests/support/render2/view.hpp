// A pinhole camera over the bench, with a lens that bends a little.
#pragma once

#include "colour/matrix.hpp"
#include "photo/geometry.hpp"

namespace huewright::render2 {

struct ViewSpec {
  Vec3 eye{0, 6, 75};        ///< cm from the middle of the scene; x to the right, y down the picture, z up
  double roll_deg = 0;
  double wide = 44;          ///< cm of the bench that fill the picture's width, about
  double distortion = 0;     ///< radial: a point at half the picture's diagonal lies so much further out, relative; −0.03..0.03
};

class View {
 public:
  View(const ViewSpec& spec, Size size);
  Point toPicture(Point place) const;    ///< cm to pixels, the lens's bend included
  Point toPlace(Point pixel) const;      ///< its inverse, within 0.001 pixels
  Vec3 toEye(Point place) const;         ///< unit vector
  double cosOffAxis(Point pixel) const;  ///< of the angle between the ray and the lens's axis
  double pixelsPerCm() const { return focal_ / distance_; }  ///< in the middle

 private:
  Point unbent(Point pixel) const;       // focal lengths from the axis
  Vec3 eye_, right_, down_, ahead_;
  double focal_, distance_, half_diagonal_, distortion_;
  Point middle_;
};

}  // namespace huewright::render2
