// What a hand and a gun leave in a film: waves of a band of lengths, and stripes.
#pragma once

#include <vector>

#include "photo/geometry.hpp"
#include "render/random.hpp"

namespace huewright::render2 {

using render::Random;

/// A sum of plane waves with lengths between two bounds, in random directions; mean 0 and standard deviation 1 over a large area.
class Waves {
 public:
  Waves(double shortest_cm, double longest_cm, int count, Random& random);
  double at(Point place) const;

 private:
  struct Wave {
    float x, y, phase;
  };
  std::vector<Wave> waves_;
  double height_;
};

/// Parallel passes of a spray gun: a wave whose distance wanders a little; mean 0 and standard deviation 1 over a large area.
class Stripes {
 public:
  Stripes(double pitch_cm, double turn_deg, Random& random);
  double at(Point place) const;

 private:
  double x_, y_, phase_, wander_, wander_phase_;
};

}  // namespace huewright::render2
