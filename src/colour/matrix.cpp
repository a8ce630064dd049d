#include "colour/matrix.hpp"

#include <algorithm>
#include <cmath>

namespace huewright {

double length(const Vec3& v) { return std::sqrt(dot(v, v)); }

Eigen3 eigenSymmetric(Mat3 m) {
  Mat3 v = Mat3::identity();
  constexpr std::array<std::array<std::size_t, 2>, 3> kPairs{{{0, 1}, {0, 2}, {1, 2}}};
  for (int sweep = 0; sweep < 32; ++sweep) {
    const double off = m(0, 1) * m(0, 1) + m(0, 2) * m(0, 2) + m(1, 2) * m(1, 2);
    if (off == 0.0) break;
    for (const auto& [p, q] : kPairs) {
      if (m(p, q) == 0.0) continue;
      const double theta = (m(q, q) - m(p, p)) / (2.0 * m(p, q));
      const double t = (theta >= 0 ? 1.0 : -1.0) / (std::abs(theta) + std::sqrt(theta * theta + 1.0));
      const double c = 1.0 / std::sqrt(t * t + 1.0), s = t * c;
      Mat3 rotation = Mat3::identity();
      rotation(p, p) = rotation(q, q) = c;
      rotation(p, q) = s;
      rotation(q, p) = -s;
      m = transpose(rotation) * m * rotation;
      m(p, q) = m(q, p) = 0.0;
      v = v * rotation;
    }
  }
  std::array<std::size_t, 3> order{0, 1, 2};
  std::ranges::sort(order, {}, [&](std::size_t i) { return m(i, i); });
  Eigen3 out;
  for (std::size_t i = 0; i < 3; ++i) {
    out.values[i] = m(order[i], order[i]);
    for (std::size_t r = 0; r < 3; ++r) out.vectors(r, i) = v(r, order[i]);
  }
  return out;
}

}  // namespace huewright
