#include "scene/homography.hpp"

#include <algorithm>
#include <cmath>
#include <opencv2/calib3d.hpp>
#include <vector>

namespace huewright {

Point mapped(const Mat3& homography, Point point) {
  const Vec3 at = homography * Vec3{point.x, point.y, 1};
  return {at[0] / at[2], at[1] / at[2]};
}

double areaScale(const Mat3& homography, Point point) {
  // The Jacobian's determinant of a projective map is det(H) / w³.
  const double w = dot(homography.row[2], Vec3{point.x, point.y, 1});
  return determinant(homography) / (w * w * w);
}

std::optional<HomographyFit> fitHomography(std::span<const Point> from, std::span<const Point> to) {
  if (from.size() < 4 || from.size() != to.size()) return std::nullopt;
  const auto points = [](std::span<const Point> all) {
    std::vector<cv::Point2d> out;
    for (const Point& p : all) out.emplace_back(p.x, p.y);
    return out;
  };
  const cv::Mat found = cv::findHomography(points(from), points(to), 0);
  if (found.empty() || found.type() != CV_64F) return std::nullopt;
  HomographyFit fit;
  for (int r = 0; r < 3; ++r)
    for (int c = 0; c < 3; ++c) {
      const double value = found.at<double>(r, c);
      if (!std::isfinite(value)) return std::nullopt;
      fit.matrix(static_cast<std::size_t>(r), static_cast<std::size_t>(c)) = value;
    }
  double squares = 0;
  for (std::size_t i = 0; i < from.size(); ++i) {
    const Point at = mapped(fit.matrix, from[i]);
    squares += (at.x - to[i].x) * (at.x - to[i].x) + (at.y - to[i].y) * (at.y - to[i].y);
  }
  if (!std::isfinite(squares)) return std::nullopt;
  const auto freedom = 2.0 * static_cast<double>(from.size()) - 8;  // coordinates less the homography's parameters
  fit.sd = freedom > 0 ? std::sqrt(squares / freedom) : 0;
  return fit;
}

}  // namespace huewright
