// The correlated colour temperature of a light.
#pragma once

#include <expected>
#include <vector>

#include "colour/spectrum.hpp"

namespace huewright {

struct Cct {
  double kelvin = 0;  ///< 1500 to 25000
  double duv = 0;     ///< distance from the Planckian locus in CIE 1960 (u, v); positive above it, towards green; -0.05 to 0.05
};

/// Why a chromaticity has no correlated colour temperature here.
enum class CctProblem {
  NoChromaticity,  ///< not finite, or outside the triangle x, y >= 0, x + y <= 1, or y all but zero
  TooFar,          ///< more than 0.05 from the locus, where the number would mean nothing (CIE 15:2018, 9.5)
  TooWarm,         ///< below 1500 K
  TooCool,         ///< above 25000 K
};

/// A point in the CIE 1960 uniform chromaticity diagram.
struct Uv {
  double u = 0, v = 0;
};

/// u = 4x / (3 + 12y − 2x), v = 6y / (3 + 12y − 2x). Source: CIE 15:2018, 7.4 and 9.5 (from memory), where v is two thirds of v'.
constexpr Uv toUv(Chromaticity c) {
  const double s = 3 + 12 * c.y - 2 * c.x;
  return {4 * c.x / s, 6 * c.y / s};
}

/// The chromaticities of black bodies for one observer.
class PlanckianLocus {
 public:
  /// In: an observer on a grid of at most 5 nm that reaches at least from 380 to 780 nm, such as readObserver gives.
  explicit PlanckianLocus(Observer observer);

  /// The black body of that temperature, 1000 to 100000 K, by Planck's law with c2 = 0.014388 m·K. Accuracy: that of the observer's grid.
  Uv at(double kelvin) const;

  /// The temperature of the black body nearest in (u, v), and the distance. Accuracy: 0.001 K against the exact nearest point for |Duv| <= 0.03;
  /// four decimals of x and y are worth 2 K at 5000 K. Errors: CctProblem.
  /// Source: CIE 15:2018, 9.5, for the definition; Duv and its sign after Ohno (2014), Leukos 10, 47-55. The search is our own: the nearest point
  /// of a table in steps of 5 reciprocal megakelvins, then the zero of the distance's derivative by bisection.
  std::expected<Cct, CctProblem> find(Chromaticity chromaticity) const;

 private:
  struct Point {
    Uv uv, slope;  ///< slope: by reciprocal megakelvins
  };
  Point point(double mired) const;

  Observer observer_;
  std::vector<Uv> table_;
};

}  // namespace huewright
