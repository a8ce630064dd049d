// Chromatic adaptation between reference whites.
#pragma once

#include "colour/lab.hpp"

namespace huewright {

/// The Bradford cone-like matrix, XYZ to sharpened RGB. Source: Lam (1985), as printed in ICC.1:2022, annex E.
inline constexpr Mat3 kBradford{{{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}}};

/// The linear Bradford transform that carries one white onto another. Accuracy: that of double.
/// Source: ICC.1:2022, annex E.
constexpr Mat3 bradford(const Vec3& from_white, const Vec3& to_white) {
  const Vec3 from = kBradford * from_white, to = kBradford * to_white;
  return inverse(kBradford) * Mat3::diagonal({to[0] / from[0], to[1] / from[1], to[2] / from[2]}) * kBradford;
}

/// A surface's colour as it would look under another white.
template <class To, class From>
constexpr Xyz<To> adapt(const Xyz<From>& c) {
  const Vec3 v = bradford(kWhite<From>, kWhite<To>) * toVec(c);
  return {v[0], v[1], v[2]};
}
template <class To, class From>
Lab<To> adapt(const Lab<From>& c) { return toLab(adapt<To>(toXyz(c))); }

}  // namespace huewright
