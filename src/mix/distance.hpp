// A distance from the wanted colour that is itself uncertain.
#pragma once

#include "colour/delta_e.hpp"

namespace huewright {

struct DistanceRange {
  double low = 0, high = 0;   ///< ΔE00; 95 % of the distances lie between
};

/// The distance |u + e|, e normal with that covariance (symmetric, not negative), in ΔE00. High: its 97.5 % point, over 1024 fixed points that fill the normal
/// distribution evenly (an additive recurrence in three dimensions). Low: |u| less 1.96 standard deviations along u, not below 0; the 2.5 % point would
/// call distances near 0 impossible wherever the covariance is generous, and on the renderer a fifth of them were there. Accuracy: 3 % of the larger of |u| and the largest
/// standard deviation.
DistanceRange distanceRange(const Vec3& u, const Mat3& covariance);

/// The mean of max(0, x) for x normal. In: sd >= 0.
double meanAbove(double mean, double sd);

/// Inverse of the standard normal distribution function, 0 < p < 1, by Newton's steps on std::erfc. Accuracy: 1e-12 for 1e-6 < p < 1 − 1e-6.
double normalQuantile(double p);

}  // namespace huewright
