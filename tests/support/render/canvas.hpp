// What the lens throws on the sensor: things painted one over the other, in raw camera light.
#pragma once

#include <optional>
#include <vector>

#include "render/plane.hpp"
#include "render/random.hpp"

namespace huewright::render {

/// Camera raw of a surface under the first and the second lamp (white diffuser G = 1 each).
struct Raw {
  float first[3]{}, second[3]{};
};

/// The camera's eyes under the scene's one or two lamps.
class Eye {
 public:
  explicit Eye(const Shop& shop);
  Raw see(const Spectrum& reflectance) const;

 private:
  Sensor first_;
  std::optional<Sensor> second_;
};

/// A thing that lies on the bench.
struct Thing {
  Place place;
  Quad quad;                           ///< in the picture
  std::vector<Raw> raw;                ///< for evenly spaced films from film_low to film_high; one: no dependence
  std::vector<Xyz<D50>> xyz;           ///< the same films
  double film_low = 1, film_high = 1;
  Finish finish;
  double sparkle = 0, angle = 0;       ///< of the ground, already scaled by finish.flake
  double veil = 0;                     ///< mirrored part of white
};

/// Largest relative departure of the film that a finish makes: the table of a Thing must span 1 ± this.
double filmReach(const Finish& finish);

class Canvas {
 public:
  Canvas(const SceneSpec& scene, const Eye& eye, const Perspective& perspective, const LightField& light);

  void paintBench(Bench bench, Random random);
  void dropShadow(const Quad& quad);
  /// Paints it and returns the mean XYZ (D50) of the body over the region.
  Xyz<D50> paint(const Thing& thing, Random random);
  void blur(double sigma);

  std::vector<float> take() { return std::move(rgb_); }

 private:
  float* at(int x, int y) { return rgb_.data() + 3 * (static_cast<std::ptrdiff_t>(y) * size_.width + x); }
  void sprinkleDust(const Thing& thing, Random& random);
  double mirrored(const Thing& thing, double x, double y) const;

  Size size_;
  Raw white_;
  const Eye& eye_;
  const Perspective& perspective_;
  const LightField& light_;
  double toward_x_, toward_y_;         // unit vector from the lamp's side to the dim side
  std::vector<float> rgb_;
};

}  // namespace huewright::render
