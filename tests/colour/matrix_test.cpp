#include "colour/matrix.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <random>

namespace huewright {
namespace {

TEST(Matrix, InverseTimesMatrixIsIdentity) {
  constexpr Mat3 m{{{{2, 1, 0}, {1, 3, 1}, {0, 1, 4}}}};
  static_assert(determinant(m) == 18);
  const Mat3 i = inverse(m) * m;
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(i(r, c), r == c, 1e-14);
}

// Eigenvalues of [[2,-1,0],[-1,2,-1],[0,-1,2]] are 2 − √2, 2, 2 + √2 (the discrete Laplacian, 2 − 2 cos(kπ/4)).
TEST(Eigen, DiscreteLaplacian) {
  const Eigen3 e = eigenSymmetric({{{{2, -1, 0}, {-1, 2, -1}, {0, -1, 2}}}});
  EXPECT_NEAR(e.values[0], 2 - std::sqrt(2.0), 1e-13);
  EXPECT_NEAR(e.values[1], 2, 1e-13);
  EXPECT_NEAR(e.values[2], 2 + std::sqrt(2.0), 1e-13);
}

TEST(Eigen, RebuildsRandomSymmetricMatrices) {
  std::mt19937_64 rng(3);
  std::normal_distribution<double> n;
  for (int trial = 0; trial < 500; ++trial) {
    const Vec3 a{n(rng), n(rng), n(rng)}, b{n(rng), n(rng), n(rng)};
    const Mat3 m = outer(a, a) + 1e-4 * outer(b, b);  // one large, one small, one zero eigenvalue
    const Eigen3 e = eigenSymmetric(m);
    const Mat3 back = e.vectors * Mat3::diagonal(e.values) * transpose(e.vectors);
    for (std::size_t r = 0; r < 3; ++r)
      for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(back(r, c), m(r, c), 1e-12 * (1 + trace(m)));
    EXPECT_LE(e.values[0], e.values[1]);
    EXPECT_LE(e.values[1], e.values[2]);
  }
}

}  // namespace
}  // namespace huewright
