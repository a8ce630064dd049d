// Photographs of a printed mat, made up, with the truth of where it lies. The mat is drawn from its layout, not by the code that prints it.
// All light is linear, 0..1, R, G, B.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <random>
#include <vector>

#include "colour/matrix.hpp"
#include "photo/geometry.hpp"
#include "photo/photo.hpp"
#include "scene/mat_layout.hpp"

namespace huewright::fixtures {

using Light = std::array<double, 3>;

inline constexpr Light kMatPaper{0.82, 0.82, 0.80}, kMatInk{0.035, 0.035, 0.04};

/// How the camera sees the sheet: a pinhole with a focal length of 0.8 of the picture's longer side.
struct MatPose {
  double turn = 0;              ///< of the sheet in its plane, degrees, clockwise
  double tilt = 0;              ///< of its plane, degrees
  double towards = 0;           ///< the way in which it falls back, degrees
  double fill = 0.8;            ///< share of the picture, along the tighter side, that the sheet takes up
  Point middle{0.5, 0.5};       ///< of the sheet's bounding box, as shares of the picture's sides
};

/// Sheet's millimetres to pixels.
Mat3 matHomography(const MatLayout& layout, const MatPose& pose, Size picture);

/// Any turn and direction, a tilt of up to so many degrees, whole in the picture.
MatPose randomPose(std::mt19937_64& random, double least_tilt, double most_tilt);

/// From 0 to 1.
double uniform(std::mt19937_64& random);

/// What lies in a window.
struct Filled {
  Light colour{};
  double speckle = 0;           ///< standard deviation of a metallic's sparkle, relative
  double smaller = 0;           ///< mm that it stops short of each edge of the window; negative: reaches over
};

/// One entry for each window of the layout; nothing: empty.
using Contents = std::vector<std::optional<Filled>>;

/// Five colours, told apart by where they lie. The windows from `from` on stay empty.
Contents colourful(const MatLayout& layout, std::size_t from = 99);

class MatPicture {
 public:
  /// A cluttered bench, another for each seed.
  MatPicture(Size size, std::uint64_t seed);
  /// One colour.
  MatPicture(Size size, Light colour);

  void lay(const MatLayout& layout, const Mat3& homography, const Contents& contents = {});
  /// Covers a place with a colour, as a thumb or a tool does.
  void cover(const Quad& quad, Light colour);
  /// The light falls off to (1 − by) across the picture, in a direction in degrees.
  void fallOff(double by, double direction);
  /// A shadow over everything to the right of the way from one point to another, seen on the picture; `left` of the light stays.
  void shade(Point from, Point to, double left);
  void mirror();

  /// The picture as a preview of a photo 1 / scale times as large. Blur: standard deviation in pixels; noise: in codes of 255.
  Preview take(double blur, double noise, double scale = 1) const;

 private:
  Size size_;
  std::uint64_t seed_ = 0;
  std::vector<float> light_;
};

}  // namespace huewright::fixtures
