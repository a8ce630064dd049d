// Three-vectors and 3×3 matrices, small enough to be constants of the compiler.
#pragma once

#include <array>
#include <cstddef>

namespace huewright {

using Vec3 = std::array<double, 3>;

/// Row-major 3×3 matrix.
struct Mat3 {
  std::array<Vec3, 3> row{};

  static constexpr Mat3 identity() { return diagonal({1, 1, 1}); }
  static constexpr Mat3 diagonal(Vec3 d) { return {{{{d[0], 0, 0}, {0, d[1], 0}, {0, 0, d[2]}}}}; }

  constexpr double& operator()(std::size_t r, std::size_t c) { return row[r][c]; }
  constexpr double operator()(std::size_t r, std::size_t c) const { return row[r][c]; }
  bool operator==(const Mat3&) const = default;
};

constexpr Vec3 operator+(const Vec3& a, const Vec3& b) { return {a[0] + b[0], a[1] + b[1], a[2] + b[2]}; }
constexpr Vec3 operator-(const Vec3& a, const Vec3& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }
constexpr Vec3 operator*(double s, const Vec3& v) { return {s * v[0], s * v[1], s * v[2]}; }
constexpr double dot(const Vec3& a, const Vec3& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

constexpr Vec3 operator*(const Mat3& m, const Vec3& v) { return {dot(m.row[0], v), dot(m.row[1], v), dot(m.row[2], v)}; }

constexpr Mat3 transpose(const Mat3& m) {
  Mat3 t;
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) t(r, c) = m(c, r);
  return t;
}

constexpr Mat3 operator*(const Mat3& a, const Mat3& b) {
  const Mat3 t = transpose(b);
  Mat3 p;
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) p(r, c) = dot(a.row[r], t.row[c]);
  return p;
}

constexpr Mat3 operator+(const Mat3& a, const Mat3& b) { return {{a.row[0] + b.row[0], a.row[1] + b.row[1], a.row[2] + b.row[2]}}; }
constexpr Mat3 operator*(double s, const Mat3& m) { return {{s * m.row[0], s * m.row[1], s * m.row[2]}}; }

/// a·bᵀ
constexpr Mat3 outer(const Vec3& a, const Vec3& b) { return {{a[0] * b, a[1] * b, a[2] * b}}; }

constexpr double trace(const Mat3& m) { return m(0, 0) + m(1, 1) + m(2, 2); }

constexpr double determinant(const Mat3& m) {
  return m(0, 0) * (m(1, 1) * m(2, 2) - m(1, 2) * m(2, 1)) - m(0, 1) * (m(1, 0) * m(2, 2) - m(1, 2) * m(2, 0)) +
         m(0, 2) * (m(1, 0) * m(2, 1) - m(1, 1) * m(2, 0));
}

/// Inverse by cofactors. The caller sees to it that the determinant is not zero.
constexpr Mat3 inverse(const Mat3& m) {
  const double s = 1.0 / determinant(m);
  Mat3 i;
  i(0, 0) = s * (m(1, 1) * m(2, 2) - m(1, 2) * m(2, 1));
  i(0, 1) = s * (m(0, 2) * m(2, 1) - m(0, 1) * m(2, 2));
  i(0, 2) = s * (m(0, 1) * m(1, 2) - m(0, 2) * m(1, 1));
  i(1, 0) = s * (m(1, 2) * m(2, 0) - m(1, 0) * m(2, 2));
  i(1, 1) = s * (m(0, 0) * m(2, 2) - m(0, 2) * m(2, 0));
  i(1, 2) = s * (m(0, 2) * m(1, 0) - m(0, 0) * m(1, 2));
  i(2, 0) = s * (m(1, 0) * m(2, 1) - m(1, 1) * m(2, 0));
  i(2, 1) = s * (m(0, 1) * m(2, 0) - m(0, 0) * m(2, 1));
  i(2, 2) = s * (m(0, 0) * m(1, 1) - m(0, 1) * m(1, 0));
  return i;
}

/// Length of a vector. Accuracy: that of std::sqrt.
double length(const Vec3& v);

/// Eigenvalues (ascending) and eigenvectors (columns) of a symmetric matrix, by cyclic Jacobi rotations.
/// Accuracy: 1e-14 of the largest eigenvalue. Source: Golub and Van Loan, Matrix Computations, section 8.5.
struct Eigen3 {
  Vec3 values;
  Mat3 vectors;
};
Eigen3 eigenSymmetric(Mat3 m);

}  // namespace huewright
