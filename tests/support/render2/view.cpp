#include "render2/view.hpp"

#include <cmath>
#include <numbers>

namespace huewright::render2 {
namespace {

Vec3 unit(const Vec3& v) { return 1 / std::sqrt(dot(v, v)) * v; }
Vec3 cross(const Vec3& a, const Vec3& b) { return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]}; }

}  // namespace

View::View(const ViewSpec& spec, Size size)
    : eye_(spec.eye), ahead_(unit(-1.0 * spec.eye)), distance_(std::sqrt(dot(spec.eye, spec.eye))), distortion_(spec.distortion),
      middle_{0.5 * size.width, 0.5 * size.height} {
  focal_ = size.width * distance_ / spec.wide;
  half_diagonal_ = 0.5 * std::hypot(size.width, size.height) / focal_;
  // x right, y down and z up are a left-handed set, so that "down" is the cross product the other way round.
  const Vec3 level = unit(Vec3{1, 0, 0} - dot(Vec3{1, 0, 0}, ahead_) * ahead_), below = unit(cross(level, ahead_));
  const Vec3 upright = below[1] < 0 ? -1.0 * below : below;
  const double a = spec.roll_deg * std::numbers::pi / 180;
  right_ = std::cos(a) * level + std::sin(a) * upright;
  down_ = std::cos(a) * upright - std::sin(a) * level;
}

Point View::toPicture(Point p) const {
  const Vec3 way = Vec3{p.x, p.y, 0} - eye_;
  const double deep = dot(way, ahead_), x = dot(way, right_) / deep, y = dot(way, down_) / deep;
  const double bend = 1 + distortion_ * (x * x + y * y) / (half_diagonal_ * half_diagonal_);
  return {middle_.x + focal_ * bend * x, middle_.y + focal_ * bend * y};
}

Point View::unbent(Point pixel) const {
  const double bx = (pixel.x - middle_.x) / focal_, by = (pixel.y - middle_.y) / focal_;
  const double most = half_diagonal_ * half_diagonal_;
  double x = bx, y = by;
  for (int i = 0; i < 5; ++i) {
    const double bend = 1 + distortion_ * (x * x + y * y) / most;
    x = bx / bend;
    y = by / bend;
  }
  return {x, y};
}

Point View::toPlace(Point pixel) const {
  const Point p = unbent(pixel);
  const Vec3 way = ahead_ + p.x * right_ + p.y * down_;
  const double far = -eye_[2] / way[2];
  return {eye_[0] + far * way[0], eye_[1] + far * way[1]};
}

Vec3 View::toEye(Point p) const { return unit(eye_ - Vec3{p.x, p.y, 0}); }

double View::cosOffAxis(Point pixel) const {
  const Point p = unbent(pixel);
  return 1 / std::sqrt(1 + p.x * p.x + p.y * p.y);
}

}  // namespace huewright::render2
