// The interval of a distance that can never be negative.
#pragma once

#include "colour/matrix.hpp"

namespace huewright {

struct Interval {
  double low = 0, high = 0;
};

/// Probability that a normal vector with that mean and covariance falls inside a ball of that radius about the origin.
/// In: symmetric covariance; eigenvalues below 1e-9 of the radius squared count as that, so that a degenerate one does no harm.
/// Accuracy: 1e-4. Source: the definition, by Gauss–Legendre quadrature over two principal axes and the error function over the third.
double probabilityInBall(const Vec3& mean, const Mat3& covariance, double radius);

/// The 95 % interval of the true length |u|, from a measured u and its covariance.
///
/// A measured length is biased upward near zero: |u + noise| > |u| on the average. The interval therefore comes from inverting a
/// test (Neyman 1937): the low end is the shortest true length that would give a length as long as the measured one in at least
/// 2.5 % of the trials, zero where already a true zero does; the high end is the longest that would give one as short in at least
/// 2.5 %. The true direction is not known either: the probabilities are averages over the directions that the covariance allows.
/// Where the measured length is shorter than the median under a true zero, that median stands in for it,
/// so that a lucky zero does not promise more than it can. Accuracy: a hundredth of the largest standard deviation.
Interval distanceInterval(const Vec3& u, const Mat3& covariance);

}  // namespace huewright
