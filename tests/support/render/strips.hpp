// Which strip of a stepped panel a pixel lies on.
#pragma once

#include "render/canvas.hpp"

namespace huewright::render {

struct StripAt {
  std::size_t first = 0;     ///< this strip …
  float part = 0;            ///< … and this part of the next one
  double gain = 1;           ///< of the brightness, on the tape's line
  bool clear = true;         ///< away from lines and edges, so that part is 0
};

class Strips {
 public:
  /// Draws from `random` only for a stepped thing.
  Strips(const Thing& thing, const Perspective& perspective, Random& random);
  StripAt at(double x, double y) const;   ///< picture pixels

 private:
  struct Wave {
    double length = 1, phase = 0, height = 0;
  };
  struct Edge {
    double at = 0;           // plane pixels from the panel's start
    std::vector<Wave> waves;
  };
  const Perspective& perspective_;
  const TapeSpec& tape_;
  double cx_, cy_, cos_, sin_, half_;   // the panel's centre, its long axis, half its length
  std::vector<Edge> edges_;
};

/// A strip's corners in the picture, clockwise from the panel's own top left.
Quad stripQuad(const Thing& thing, const Perspective& perspective, std::size_t strip);

}  // namespace huewright::render
