// Fits that a few wild values do not spoil.
#pragma once

#include <utility>
#include <vector>

namespace huewright {

/// The middle value (the upper of the two middle ones). In: at least one value.
double medianOf(std::vector<double> values);

/// A value at a place, with its weight.
struct Spot {
  double x = 0, y = 0, value = 0, weight = 1;
};

/// value ≈ at + along_x·(x − x0) + along_y·(y − y0), with the standard deviations of the two slopes.
struct Plane {
  double x0 = 0, y0 = 0, at = 0, along_x = 0, along_y = 0, sd_x = 0, sd_y = 0;
  double operator()(double x, double y) const { return at + along_x * (x - x0) + along_y * (y - y0); }
};

/// Weighted least squares. Samples in one line or point give a level plane.
Plane fitPlane(const std::vector<Spot>& samples);

/// The shortest interval that holds half of the values: its middle and half its length. Up to half of the values may be anything.
/// Source: Rousseeuw and Leroy, Robust Regression and Outlier Detection (1987), section 4.1.
struct Shorth {
  double middle = 0, half = 0;
};
Shorth shorth(std::vector<double> values);

/// A plane that outliers do not tilt, though nearly half of the samples be glare: Tukey's biweight about the shorth, four rounds.
/// Returns it with the robust standard deviation about it.
std::pair<Plane, double> robustPlane(std::vector<Spot> samples);

/// The mean without a sixth of the values at either end, and its standard error; the error is 1e9 with fewer than four values.
/// Source: Yuen, The two-sample trimmed t for unequal population variances (Biometrika 1974).
std::pair<double, double> trimmedMean(std::vector<double> values);

}  // namespace huewright
