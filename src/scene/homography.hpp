// The mapping between a flat sheet and its picture.
#pragma once

#include <optional>
#include <span>

#include "colour/matrix.hpp"
#include "photo/geometry.hpp"

namespace huewright {

/// Where a plane's point comes to lie. Not finite for a point on the plane's horizon.
Point mapped(const Mat3& homography, Point point);

/// How much the point's surroundings are turned and stretched: positive when the picture is not mirrored there. Zero or not finite on the
/// horizon, and of the other sign beyond it.
double areaScale(const Mat3& homography, Point point);

struct HomographyFit {
  Mat3 matrix;     ///< element (2, 2) is 1
  double sd = 0;   ///< of one coordinate of one point about the fit, in the units of `to`; zero for four points
};

/// Least squares of the distances in `to`, over all points; double precision. In: at least four pairs, no three of four points in a line.
/// Empty when the points do not settle it.
/// Source: direct linear transform with normalised points, then Gauss–Newton (Hartley and Zisserman, Multiple View Geometry, 4.1 to 4.4).
std::optional<HomographyFit> fitHomography(std::span<const Point> from, std::span<const Point> to);

}  // namespace huewright
