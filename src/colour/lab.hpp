// CIE XYZ and CIELAB of surfaces. The reference white is part of the type.
#pragma once

#include "colour/matrix.hpp"
#include "colour/white.hpp"

namespace huewright {

/// Tristimulus values of a surface relative to a white of Y = 1 (CIE 1931 2° observer).
template <class White>
struct Xyz {
  double X = 0, Y = 0, Z = 0;
  bool operator==(const Xyz&) const = default;
};

/// CIELAB. L* 0..100 for surfaces that reflect no more than the white; a*, b* unbounded.
template <class White>
struct Lab {
  double L = 0, a = 0, b = 0;
  bool operator==(const Lab&) const = default;
};

template <class White>
constexpr Vec3 toVec(const Xyz<White>& c) { return {c.X, c.Y, c.Z}; }
template <class White>
constexpr Vec3 toVec(const Lab<White>& c) { return {c.L, c.a, c.b}; }

namespace detail {
Vec3 labFromXyz(const Vec3& xyz, const Vec3& white);
Vec3 xyzFromLab(const Vec3& lab, const Vec3& white);
Mat3 labByXyz(const Vec3& xyz, const Vec3& white);
}  // namespace detail

/// CIELAB of a surface. In: xyz relative to white Y = 1; slightly negative values (noise) follow the straight part of the curve.
/// Accuracy: 1e-12. Errors: none. Source: CIE 15:2018, 8.2.1 (ISO/CIE 11664-4:2019).
template <class White>
Lab<White> toLab(const Xyz<White>& xyz) {
  const Vec3 v = detail::labFromXyz(toVec(xyz), kWhite<White>);
  return {v[0], v[1], v[2]};
}

/// The inverse of toLab. Accuracy: 1e-12. Source: CIE 15:2018, 8.2.1, annex.
template <class White>
Xyz<White> toXyz(const Lab<White>& lab) {
  const Vec3 v = detail::xyzFromLab(toVec(lab), kWhite<White>);
  return {v[0], v[1], v[2]};
}

/// Partial derivatives of (L*, a*, b*) (rows) by (X, Y, Z) (columns) at a colour; continuous except at the knee of the curve.
template <class White>
Mat3 labByXyz(const Xyz<White>& xyz) { return detail::labByXyz(toVec(xyz), kWhite<White>); }

/// C*ab = hypot(a*, b*). Source: CIE 15:2018, 8.2.2.2.
double chroma(const Vec3& lab);

/// h_ab in degrees, 0 <= h < 360; 0 for a neutral. Source: CIE 15:2018, 8.2.2.2.
double hueDegrees(const Vec3& lab);

}  // namespace huewright
