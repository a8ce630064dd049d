// The light over the set-up, as the grey patches show it.
#pragma once

#include <span>
#include <vector>

#include "base/problem.hpp"
#include "camera/patch.hpp"
#include "colour/adapt.hpp"
#include "photo/geometry.hpp"

namespace huewright {

/// Gains that carry what the photo holds to what the same surface would show in even, neutral light at the right exposure.
///
/// A gain is a factor on each Bradford-sharpened channel. Its logarithm is known at every grey patch and interpolated between
/// them: one grey holds everywhere; two or more in line go linearly along their axis; three or more spread out give a plane.
/// Beyond the outermost greys the line or plane is followed for half of their span, then held.
class Light {
 public:
  /// No grey: the photo is taken as it is.
  Light() = default;

  /// In: greys as sampled; grey_y = their luminance factor, 0..1 (perfect white = 1).
  /// Errors: GreyUnusable when a grey is black, fully masked or wholly clipped.
  static Result<Light> fromGreys(std::span<const Patch> greys, double grey_y);

  std::size_t greys() const { return places_.size(); }

  /// Share of each grey in the log gain at a place; sums to 1. Empty without greys.
  std::vector<double> weights(Point place) const;

  /// The linear map from XYZ as photographed to XYZ as corrected, at a place.
  Mat3 correction(Point place) const;

  /// Covariance of grey i's log gain over the three sharpened channels, from its own noise and texture.
  const Mat3& covariance(std::size_t i) const { return covariances_[i]; }

  /// Log gain of grey i, sharpened channels.
  const Vec3& logGain(std::size_t i) const { return log_gains_[i]; }

 private:
  std::vector<Point> places_;
  std::vector<Vec3> log_gains_;
  std::vector<Mat3> covariances_;
  std::vector<std::vector<double>> affine_;  ///< per grey: (1, x, y) coefficients of its weight; empty: along the axis
  Point origin_, axis_;                      ///< centroid of the greys, and the unit vector of their longest spread
  double reach_low_ = 0, reach_high_ = 0;    ///< how far along the axis the greys go
};

/// How a shift of the log gain (sharpened channels) moves a corrected colour: columns are ∂XYZ by each channel's log gain.
Mat3 xyzByLogGain(const Vec3& corrected_xyz);

}  // namespace huewright
