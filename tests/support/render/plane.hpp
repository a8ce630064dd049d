// The bench's plane, how the camera sees it, and where things lie on it.
#pragma once

#include <algorithm>

#include "render/scene.hpp"

namespace huewright::render {

/// Plane to picture and back.
class Perspective {
 public:
  Perspective(const View& view, Size size);
  Point toPicture(Point plane) const;
  Point toPlane(Point picture) const;
  const Mat3& forward() const { return forward_; }     ///< plane to picture, homogeneous
  const Mat3& backward() const { return backward_; }   ///< picture to plane, homogeneous

 private:
  Mat3 forward_, backward_;
};

/// Signed distances to a convex clockwise quad's edges, pixels; positive inside.
class Edges {
 public:
  explicit Edges(const Quad& quad);
  double distance(std::size_t edge, double x, double y) const { return a_[edge] * x + b_[edge] * y + c_[edge]; }
  double inside(double x, double y) const {
    return std::min(std::min(distance(0, x, y), distance(1, x, y)), std::min(distance(2, x, y), distance(3, x, y)));
  }

 private:
  double a_[4], b_[4], c_[4];   // top, right, bottom, left
};

/// Corners of a place in the plane, clockwise from the top left.
Quad cornersOf(const Place& place);
Quad toPicture(const Perspective& perspective, const Quad& plane);

/// The pixels that a quad can touch, widened by `margin`, inside the picture.
struct Box {
  int left = 0, top = 0, right = 0, bottom = 0;   // right and bottom are one past the end
  int width() const { return right - left; }
  int height() const { return bottom - top; }
  bool empty() const { return right <= left || bottom <= top; }
};
Box boxOf(const Quad& quad, Size size, double margin);

/// Gives a place to everything that has none: panels and card in a row; one grey below, two at the row's ends, more below.
void arrange(SceneSpec& scene);

/// The same with the mat's windows, if there is a mat, with the chip and with the chart. A card without a window stays without a place.
/// Throws std::invalid_argument, as render() does.
void lay(SceneSpec& scene);

}  // namespace huewright::render
