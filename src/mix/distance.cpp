#include "mix/distance.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace huewright {
namespace {

constexpr std::size_t kDistancePoints = 1024;

const std::array<Vec3, kDistancePoints>& normalPoints() {
  static const std::array<Vec3, kDistancePoints> kPoints = [] {
    // Steps by powers of 1/g, g the real root of x⁴ = x + 1 (Roberts 2018, from memory).
    constexpr double kRoot = 1.2207440846057596;
    std::array<Vec3, kDistancePoints> points{};
    for (std::size_t i = 0; i < kDistancePoints; ++i)
      for (std::size_t a = 0; a < 3; ++a) {
        const double step = std::pow(kRoot, -static_cast<double>(a + 1)), at = 0.5 + step * static_cast<double>(i + 1);
        points[i][a] = normalQuantile(std::clamp(at - std::floor(at), 1e-6, 1 - 1e-6));
      }
    return points;
  }();
  return kPoints;
}

double pointAt(const std::array<double, kDistancePoints>& sorted, double q) {
  const double at = q * static_cast<double>(kDistancePoints - 1);
  const auto i = static_cast<std::size_t>(at);
  return sorted[i] + (at - std::floor(at)) * (sorted[std::min(i + 1, kDistancePoints - 1)] - sorted[i]);
}

}  // namespace

double normalQuantile(double p) {
  double x = 0;
  for (int i = 0; i < 60; ++i) {
    const double below = 0.5 * std::erfc(-x / std::numbers::sqrt2);
    const double density = std::exp(-0.5 * x * x) / std::sqrt(2 * std::numbers::pi);
    const double step = std::clamp((below - p) / density, -1.0, 1.0);
    x -= step;
    if (std::abs(step) < 1e-14) break;
  }
  return x;
}

DistanceRange distanceRange(const Vec3& u, const Mat3& covariance) {
  const Eigen3 axes = eigenSymmetric(covariance);
  Mat3 half = axes.vectors;
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) half(r, c) *= std::sqrt(std::max(axes.values[c], 0.0));
  std::array<double, kDistancePoints> lengths{};
  std::ranges::transform(normalPoints(), lengths.begin(), [&](const Vec3& point) { return length(u + half * point); });
  std::ranges::sort(lengths);
  const double distance = length(u), along2 = distance > 0 ? dot(u, covariance * u) / (distance * distance) : trace(covariance);
  return {std::max(distance - 1.96 * std::sqrt(std::max(along2, 0.0)), 0.0), pointAt(lengths, 0.975)};
}

double meanAbove(double mean, double sd) {
  if (!(sd > 0)) return std::max(mean, 0.0);
  const double z = mean / sd;
  return mean * 0.5 * std::erfc(-z / std::numbers::sqrt2) + sd * std::exp(-0.5 * z * z) / std::sqrt(2 * std::numbers::pi);
}

}  // namespace huewright
