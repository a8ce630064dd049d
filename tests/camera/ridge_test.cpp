#include "camera/ridge.hpp"

#include <array>
#include <cmath>
#include <gtest/gtest.h>

#include "render/random.hpp"

namespace huewright {
namespace {

// NIST StRD, linear regression, Longley (1967): y and six predictors. Data and certified values from memory; the solution below is checked by
// its own normal equations in long double, where it leaves less than any change in its ninth digit would.
constexpr std::array<std::array<double, 7>, 16> kLongley{{
    {60323, 83.0, 234289, 2356, 1590, 107608, 1947}, {61122, 88.5, 259426, 2325, 1456, 108632, 1948},
    {60171, 88.2, 258054, 3682, 1616, 109773, 1949}, {61187, 89.5, 284599, 3351, 1650, 110929, 1950},
    {63221, 96.2, 328975, 2099, 3099, 112075, 1951}, {63639, 98.1, 346999, 1932, 3594, 113270, 1952},
    {64989, 99.0, 365385, 1870, 3547, 115094, 1953}, {63761, 100.0, 363112, 3578, 3350, 116219, 1954},
    {66019, 101.2, 397469, 2904, 3048, 117388, 1955}, {67857, 104.6, 419180, 2822, 2857, 118734, 1956},
    {68169, 108.4, 442769, 2936, 2798, 120445, 1957}, {66513, 110.8, 444546, 4681, 2637, 121950, 1958},
    {68655, 112.6, 482704, 3813, 2552, 123366, 1959}, {69564, 114.2, 502601, 3931, 2514, 125368, 1960},
    {69331, 115.7, 518173, 4806, 2572, 127852, 1961}, {70551, 116.9, 554894, 4007, 2827, 130081, 1962}}};
constexpr std::array<double, 7> kLongleyB{-3482258.63459582, 15.0618722713733, -0.358191792925910e-01, -2.02022980381683,
                                          -1.03322686717359, -0.511041056535807e-01, 1829.15146461355};
constexpr std::array<double, 7> kLongleySd{890420.383607373, 84.9149257747669, 0.334910077722432e-01, 0.488399681651699,
                                           0.214274163161675, 0.226073200069370, 455.478499142212};
constexpr double kLongleyResidualSd = 304.854073561965;

LinearSystem longley() {
  LinearSystem s;
  s.columns = 7;
  for (const auto& row : kLongley) {
    s.a.push_back(1);
    s.a.insert(s.a.end(), row.begin() + 1, row.end());
    s.b.push_back(row[0]);
  }
  return s;
}

TEST(Ridge, LongleyAsCertified) {
  const auto fit = solveRidge(longley());
  ASSERT_TRUE(fit);
  double squares = 0;
  for (const double r : fit->residual) squares += r * r;
  const double sd = std::sqrt(squares / (16 - 7));
  EXPECT_NEAR(sd / kLongleyResidualSd, 1, 1e-9);
  for (std::size_t i = 0; i < 7; ++i) {
    EXPECT_NEAR(fit->solution[i] / kLongleyB[i], 1, 1e-9) << i;
    double variance = 0;
    for (std::size_t k = 0; k < 7; ++k) variance += fit->inverse_root[i * 7 + k] * fit->inverse_root[i * 7 + k];
    EXPECT_NEAR(sd * std::sqrt(variance) / kLongleySd[i], 1, 1e-9) << i;
  }
}

// The values above against the data, with no solver at all: Aᵀ(A·b − y) must vanish. A change of b_i by 1e-8 of itself is seen.
TEST(Ridge, LongleysCertifiedValuesFitTheirData) {
  const auto gradient = [](const std::array<double, 7>& b) {
    long double worst = 0;
    for (std::size_t i = 0; i < 7; ++i) {
      long double sum = 0, size = 0;
      for (const auto& row : kLongley) {
        long double off = -static_cast<long double>(row[0]);
        for (std::size_t k = 0; k < 7; ++k) off += static_cast<long double>(b[k]) * (k == 0 ? 1.0L : static_cast<long double>(row[k]));
        const long double x = i == 0 ? 1.0L : static_cast<long double>(row[i]);
        sum += x * off;
        size += x * x;
      }
      worst = std::max(worst, std::abs(sum) / std::sqrt(size));
    }
    return static_cast<double>(worst);
  };
  const double here = gradient(kLongleyB);
  EXPECT_LT(here, 1e-4);
  for (std::size_t i = 0; i < 7; ++i) {
    auto moved = kLongleyB;
    moved[i] *= 1 + 1e-8;
    EXPECT_GT(gradient(moved), 2 * here) << i;
  }
}

// NIST StRD, Wampler1 (1970): y = 1 + x + … + x⁵ at x = 0 … 20, so that all certified values are 1. By arithmetic; condition number about 6e6
// scaled.
TEST(Ridge, WamplerAsCertified) {
  LinearSystem s;
  s.columns = 6;
  for (int x = 0; x <= 20; ++x) {
    double power = 1, y = 0;
    for (int k = 0; k < 6; ++k) {
      s.a.push_back(power);
      y += power;
      power *= x;
    }
    s.b.push_back(y);
  }
  const auto fit = solveRidge(s);
  ASSERT_TRUE(fit);
  for (const double b : fit->solution) EXPECT_NEAR(b, 1, 1e-8);
}

LinearSystem random(std::size_t rows, std::size_t columns, std::size_t together) {
  render::Random r(4);
  LinearSystem s;
  s.columns = columns;
  for (std::size_t i = 0; i < rows; ++i) {
    for (std::size_t k = 0; k < columns; ++k) s.a.push_back(r.normal());
    s.b.push_back(r.normal());
    s.group.push_back(i / together);
  }
  return s;
}

TEST(Ridge, LeftOutResidualsAreThoseOfRefitting) {
  const LinearSystem all = random(30, 5, 3);
  const std::vector<double> penalty{0, 0, 0.3, 0.3, 2};
  const auto fit = solveRidge(all, penalty);
  ASSERT_TRUE(fit);
  for (std::size_t g = 0; g < 10; ++g) {
    LinearSystem rest;
    rest.columns = 5;
    for (std::size_t i = 0; i < 30; ++i) {
      if (all.group[i] == g) continue;
      rest.a.insert(rest.a.end(), all.a.begin() + static_cast<std::ptrdiff_t>(5 * i), all.a.begin() + static_cast<std::ptrdiff_t>(5 * i + 5));
      rest.b.push_back(all.b[i]);
    }
    const auto refit = solveRidge(rest, penalty);
    ASSERT_TRUE(refit);
    for (std::size_t i = 3 * g; i < 3 * g + 3; ++i) {
      double off = -all.b[i];
      for (std::size_t k = 0; k < 5; ++k) off += all.a[5 * i + k] * refit->solution[k];
      EXPECT_NEAR(fit->left_out[i], off, 1e-12);
    }
  }
}

TEST(Ridge, ThePenaltysMinimumHasNoSlope) {
  const LinearSystem s = random(12, 4, 1);
  const std::vector<double> penalty{0, 0.5, 1, 4};
  const auto fit = solveRidge(s, penalty);
  ASSERT_TRUE(fit);
  for (std::size_t k = 0; k < 4; ++k) {
    double slope = penalty[k] * fit->solution[k];
    for (std::size_t i = 0; i < 12; ++i) slope += s.a[4 * i + k] * fit->residual[i];
    EXPECT_NEAR(slope, 0, 1e-12);
  }
}

TEST(Ridge, WhatIsNotSettledIsNotSolved) {
  LinearSystem twice = random(10, 3, 1);
  for (std::size_t i = 0; i < 10; ++i) twice.a[3 * i + 2] = twice.a[3 * i + 1];
  EXPECT_FALSE(solveRidge(twice));
  EXPECT_TRUE(solveRidge(twice, std::vector<double>{0, 1, 1}));
  EXPECT_FALSE(solveRidge(random(2, 3, 1)));
  EXPECT_FALSE(solveRidge(LinearSystem{}));
  LinearSystem alone = random(6, 2, 1);  // one row alone settles the second column, so that it cannot be left out
  for (std::size_t i = 1; i < 6; ++i) alone.a[2 * i + 1] = 0;
  EXPECT_FALSE(solveRidge(alone));
  LinearSystem broken = random(6, 2, 1);
  broken.b[3] = std::nan("");
  EXPECT_FALSE(solveRidge(broken));
}

}  // namespace
}  // namespace huewright
