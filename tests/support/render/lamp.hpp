// The light on the bench.
#pragma once

#include <optional>
#include <string>

#include "photo/geometry.hpp"
#include "render/spectra.hpp"

namespace huewright::render {

struct Lamp {
  std::string light = "D65";         ///< CIE illuminant by name
  double falloff = 0;                ///< linear: the level goes from 1 + falloff/2 to 1 − falloff/2 across the picture's width …
  double direction_deg = 90;         ///< … in this direction: 0 dimmer to the right, 90 dimmer downwards
  double vignette = 0;               ///< quadratic: the level at the picture's corners is 1 − vignette
  std::string second_light;          ///< empty, or a second lamp whose part grows …
  double second_from = 0;            ///< … from this part of the light at the left edge …
  double second_to = 0;              ///< … to this part at the right edge, 0..1
};

/// A shadow whose edge is the line from `a` to `b` (pixels); it lies on the right-hand side when walking from a to b (y down).
struct CastShadow {
  Point a, b;
  double softness = 20;              ///< width of the penumbra, pixels
  double darkness = 0.4;             ///< part of the light that is taken away, 0..1
};

/// Relative level of each lamp at a place of the picture (their sum is 1 where the light is neither uneven nor shaded).
struct Level {
  double first = 1, second = 0;
};
class LightField {
 public:
  LightField(const Lamp& lamp, Size size, const std::optional<CastShadow>& shadow);
  Level at(double x, double y) const;
  double sum(double x, double y) const { const Level l = at(x, y); return l.first + l.second; }

 private:
  Size size_;
  double gx_, gy_, vignette_, from_, slope_;
  bool shaded_;
  double nx_ = 0, ny_ = 0, offset_ = 0, softness_ = 1, darkness_ = 0;
};

}  // namespace huewright::render
