#include "judge/interval.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace huewright {
namespace {

constexpr int kNodes = 16;
constexpr double kTurns = 0.1;  // an axis whose spread is under this share of the measured length cannot turn its direction

struct Rule {
  std::array<double, kNodes> at{}, weight{};
};

/// Gauss–Legendre nodes on [-1, 1] by Newton's method. Source: Press et al., Numerical Recipes, 3rd edition, section 4.6.
Rule gaussLegendre() {
  Rule rule;
  for (int i = 0; i < kNodes; ++i) {
    double x = std::cos(std::numbers::pi * (i + 0.75) / (kNodes + 0.5)), slope = 1;
    for (int step = 0; step < 50; ++step) {
      double p = 1, before = 0;
      for (int j = 0; j < kNodes; ++j) {
        const double older = before;
        before = p;
        p = ((2 * j + 1) * x * before - j * older) / (j + 1);
      }
      slope = kNodes * (x * p - before) / (x * x - 1);
      const double change = p / slope;
      x -= change;
      if (std::abs(change) < 1e-15) break;
    }
    rule.at[static_cast<std::size_t>(i)] = x;
    rule.weight[static_cast<std::size_t>(i)] = 2 / ((1 - x * x) * slope * slope);
  }
  return rule;
}

double density(double z) { return std::exp(-0.5 * z * z) / std::sqrt(2 * std::numbers::pi); }
double between(double a, double b) {  // standard normal probability of [a, b]
  const double root = std::numbers::sqrt2;
  return a > 0 ? 0.5 * (std::erfc(a / root) - std::erfc(b / root)) : 0.5 * (std::erf(b / root) - std::erf(a / root));
}

/// The ball's probability in the principal axes, ascending standard deviations.
double inBall(const Vec3& m, const Vec3& sd, double radius) {
  static const Rule rule = gaussLegendre();
  constexpr double kTail = 6.5;  // standard deviations beyond which nothing is left to add
  const auto piece = [&](double mean, double spread, double bound, auto&& inner) {
    const double a = std::max(-bound, mean - kTail * spread), b = std::min(bound, mean + kTail * spread);
    if (a >= b) return 0.0;
    double sum = 0;
    for (std::size_t i = 0; i < rule.at.size(); ++i) {
      const double x = 0.5 * (a + b) + 0.5 * (b - a) * rule.at[i];
      sum += rule.weight[i] * density((x - mean) / spread) / spread * inner(x);
    }
    return sum * 0.5 * (b - a);
  };
  return piece(m[0], sd[0], radius, [&](double x) {
    const double left = std::sqrt(std::max(0.0, radius * radius - x * x));
    return piece(m[1], sd[1], left, [&](double y) {
      const double half = std::sqrt(std::max(0.0, left * left - y * y));
      return between((-half - m[2]) / sd[2], (half - m[2]) / sd[2]);
    });
  });
}

struct Axes {
  Vec3 sd;
  Mat3 to;  ///< rows are the principal axes
};

Axes axesOf(const Mat3& covariance, double radius) {
  const Eigen3 e = eigenSymmetric(covariance);
  const double least = 1e-9 * std::max(radius * radius, 1e-12);
  Axes axes{{}, transpose(e.vectors)};
  for (std::size_t k = 0; k < 3; ++k) axes.sd[k] = std::sqrt(std::max(e.values[k], least));
  return axes;
}

/// Where a falling function crosses a level between two places that bracket it, by false position with the Illinois step.
/// Source: Dowell and Jarratt (1971).
template <class F>
double crossing(F falling, double level, double low, double high, double tolerance) {
  double at_low = falling(low) - level, at_high = falling(high) - level;
  if (at_low <= 0) return low;
  if (at_high >= 0) return high;
  int side = 0;
  for (int i = 0; i < 40 && high - low > tolerance; ++i) {
    const double at = (low * at_high - high * at_low) / (at_high - at_low);
    const double value = falling(at) - level;
    if (std::abs(value) < 2e-5) return at;
    if (value > 0) {
      low = at;
      at_low = value;
      if (side == 1) at_high *= 0.5;
      side = 1;
    } else {
      high = at;
      at_high = value;
      if (side == -1) at_low *= 0.5;
      side = -1;
    }
  }
  return 0.5 * (low + high);
}

}  // namespace

double probabilityInBall(const Vec3& mean, const Mat3& covariance, double radius) {
  if (radius <= 0) return 0;
  const Axes axes = axesOf(covariance, radius);
  return std::clamp(inBall(axes.to * mean, axes.sd, radius), 0.0, 1.0);
}

Interval distanceInterval(const Vec3& u, const Mat3& covariance) {
  constexpr double kTail = 0.025;
  const double measured = length(u);
  const Axes axes = axesOf(covariance, std::max(measured, 1e-6));
  const Vec3 seen = axes.to * u;
  const double widest = axes.sd[2], tolerance = 1e-3 * widest;

  // Where the truth may lie: the measured direction and, along each axis whose spread could turn it, the cubature points of the
  // error about it (Arasaratnam and Haykin 2009: ±√3 standard deviations, 3 axes).
  std::vector<Vec3> ways;
  const auto add = [&](const Vec3& to) {
    const double size = length(to);
    ways.push_back(size > 0 ? (1 / size) * to : Vec3{0, 0, 1});
  };
  for (std::size_t k = 0; k < 3; ++k)
    for (const double side : {-1.0, 1.0}) {
      Vec3 to = seen;
      if (axes.sd[k] > kTurns * measured) to[k] += side * std::numbers::sqrt3 * axes.sd[k];
      add(to);
    }
  const auto inside = [&](double true_length, double radius) {
    double sum = 0;
    for (std::size_t i = 0; i < ways.size(); ++i) {
      if (i > 0 && ways[i] == ways[i - 1]) continue;
      std::size_t same = 1;
      while (i + same < ways.size() && ways[i + same] == ways[i]) ++same;
      sum += static_cast<double>(same) * inBall(true_length * ways[i], axes.sd, radius);
    }
    return sum / static_cast<double>(ways.size());
  };
  const auto fromZero = [&](double radius) { return inBall({}, axes.sd, radius); };

  Interval out;
  const double at_zero = fromZero(measured);
  if (at_zero > 1 - kTail)
    out.low = crossing([&](double r) { return inside(r, measured); }, 1 - kTail, std::max(0.0, measured - 6 * widest), measured, tolerance);
  double shown = measured;
  if (at_zero < 0.5) shown = crossing([&](double r) { return 1 - fromZero(r); }, 0.5, measured, measured + 4 * widest, tolerance);
  out.high = crossing([&](double r) { return inside(r, shown); }, kTail, shown, shown + 6 * widest, tolerance);
  return out;
}

}  // namespace huewright
