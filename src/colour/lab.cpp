#include "colour/lab.hpp"

#include <cmath>
#include <numbers>

namespace huewright {
namespace {

// CIE 15:2018, 8.2.1: f(t) = t^(1/3) above (24/116)^3, and (841/108) t + 16/116 below.
constexpr double kKnee = (24.0 / 116.0) * (24.0 / 116.0) * (24.0 / 116.0);
constexpr double kSlope = 841.0 / 108.0;
constexpr double kOffset = 16.0 / 116.0;

double f(double t) { return t > kKnee ? std::cbrt(t) : kSlope * t + kOffset; }
double fInverse(double v) { return v > 24.0 / 116.0 ? v * v * v : (v - kOffset) / kSlope; }
double fSlope(double t) {
  if (t <= kKnee) return kSlope;
  const double root = std::cbrt(t);
  return 1.0 / (3.0 * root * root);
}

}  // namespace

namespace detail {

Vec3 labFromXyz(const Vec3& xyz, const Vec3& white) {
  const double fx = f(xyz[0] / white[0]), fy = f(xyz[1] / white[1]), fz = f(xyz[2] / white[2]);
  return {116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)};
}

Vec3 xyzFromLab(const Vec3& lab, const Vec3& white) {
  const double fy = (lab[0] + 16.0) / 116.0;
  return {white[0] * fInverse(fy + lab[1] / 500.0), white[1] * fInverse(fy), white[2] * fInverse(fy - lab[2] / 200.0)};
}

Mat3 labByXyz(const Vec3& xyz, const Vec3& white) {
  const double dx = fSlope(xyz[0] / white[0]) / white[0];
  const double dy = fSlope(xyz[1] / white[1]) / white[1];
  const double dz = fSlope(xyz[2] / white[2]) / white[2];
  return {{{{0, 116 * dy, 0}, {500 * dx, -500 * dy, 0}, {0, 200 * dy, -200 * dz}}}};
}

}  // namespace detail

double chroma(const Vec3& lab) { return std::hypot(lab[1], lab[2]); }

double hueDegrees(const Vec3& lab) {
  if (lab[1] == 0 && lab[2] == 0) return 0;
  const double h = std::atan2(lab[2], lab[1]) * 180.0 / std::numbers::pi;
  return h < 0 ? h + 360.0 : h;
}

}  // namespace huewright
