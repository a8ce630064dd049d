// What the lens throws on the sensor: things painted one over the other, in raw camera light.
#pragma once

#include <functional>
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

/// A body's colour.
struct Coating {
  std::vector<Raw> raw;                ///< for evenly spaced films from film_low to film_high; one: no dependence
  std::vector<Xyz<D50>> xyz;           ///< the same films
  double film_low = 1, film_high = 1;
};

/// A thing that lies on the bench.
struct Thing {
  Place place;
  Quad quad;                           ///< in the picture
  std::vector<Coating> coatings{Coating{}};  ///< one, or one for each strip; all for the same films
  std::vector<double> boundaries;      ///< between strips, parts 0..1 of the longer side
  TapeSpec tape;
  Finish finish;
  double sparkle = 0, angle = 0;       ///< of the ground, already scaled by finish.flake
  double veil = 0;                     ///< mirrored part of white
  std::optional<Place> glare_over{};   ///< what finish.glare is measured in; nothing: the thing's own place
};

/// Mean XYZ (D50) of the body over the region, and over each strip without its edges.
struct Painted {
  Xyz<D50> mean;
  std::vector<Xyz<D50>> strips;
};

/// Largest relative departure of the film that a finish makes: the table of a Thing must span 1 ± this.
double filmReach(const Finish& finish);

/// The sum and what the glare adds at a place (parts of the width and height) of a thing that is `shape` times as high as wide.
double addGlare(double sum, const std::vector<Glare>& glare, double u, double v, double shape);

class Canvas {
 public:
  Canvas(const SceneSpec& scene, const Eye& eye, const Perspective& perspective, const LightField& light);

  void paintBench(Bench bench, Random random);
  /// Scale 1: of a thing 7 pixels high.
  void dropShadow(const Quad& quad, double scale = 1);
  Painted paint(const Thing& thing, Random random);

  /// Matt paper with fibres; where `hole` is, it has been cut out.
  void paintPaper(const Quad& page, const PaperSpec& paper, const std::optional<Quad>& hole, Random random);
  /// Covers the paper by the share (0..1) that `share` says for each place of the sheet, millimetres; `where` bounds it.
  void print(const Mat3& sheet_to_picture, const MatRect& where, const Raw& ink, const std::function<double(Point)>& share);
  /// Takes a part of the light away, 1 − `keep` a channel, in a smudge of irregular outline.
  void smudge(Point at, double radius, double shape, double turn, const Vec3& keep, Random& random);

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
