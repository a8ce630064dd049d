// The light over the set-up, as the grey patches and white paper show it.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "base/problem.hpp"
#include "camera/chart_light.hpp"
#include "camera/light_map.hpp"
#include "camera/patch.hpp"
#include "colour/adapt.hpp"
#include "photo/geometry.hpp"

namespace huewright {

/// Gains that carry what the photo holds to what the same surface would show in even, neutral light at the right exposure.
///
/// A gain is a factor on each Bradford-sharpened channel. Its logarithm is known at every grey patch and interpolated between
/// them: one grey holds everywhere; two or more in line go linearly along their axis; three or more spread out give a plane.
/// Beyond the outermost greys the line or plane is followed for half of their span, then held.
///
/// Where plain paper has shown how the light lies (LightMap), its surface says how the light differs between places, and the greys together
/// only set the level: each of them carried to the place by the surface, their mean taken.
class Light {
 public:
  /// No grey: the photo is taken as it is.
  Light() = default;

  /// In: greys as sampled; grey_y = their luminance factor, 0..1 (perfect white = 1).
  /// Errors: GreyUnusable when a grey is black, fully masked or wholly clipped.
  /// map: of plain paper in the same photo, or in another one of the same set-up; absent: none.
  static Result<Light> fromGreys(std::span<const Patch> greys, double grey_y, std::optional<LightMap> map = {});

  /// The same for greys that are not quite neutral: their true colour.
  static Result<Light> fromGreys(std::span<const Patch> greys, const Xyz<D50>& grey, std::optional<LightMap> map = {});

  /// No grey, but white paper in the photo itself: it sets the level as well, as if it were a white of luminance factor paper_y, 0..1.
  static Light fromPaper(LightMap map, double paper_y);

  /// No grey, and paper in another photo: brought to the light at one place, whose colour and level stay as photographed.
  static Light evenedTo(LightMap map, Point place);

  /// A chart in the photo has set the level already: the greys only say how the light differs from place to place. In: true when the greys' own
  /// lightness is known better than the chart's place tells; then they keep the brightness, and the chart the tint.
  void keepLevel(bool brightness_by_greys);

  /// What a chart shows of the light's course, followed from where the level was set: at the only grey, or at the chart. Paper and several greys show more, and
  /// keep their own course. In: brightness_by_greys as for keepLevel, which comes first.
  void follow(const LightSlope& slope, bool brightness_by_greys);

  /// How far the light's level at a place against that where it was set is unknown, from the slope that is followed; natural log, one standard deviation.
  /// Nothing when none is followed.
  std::optional<double> followedSd(Point place) const;

  std::size_t greys() const { return places_.size(); }
  const std::optional<LightMap>& map() const { return map_; }
  bool paperIsGrey() const { return paper_is_grey_; }

  /// Share of each grey in the log gain at a place; sums to 1. Empty without greys.
  std::vector<double> weights(Point place) const;

  /// Slope of the log gain along x and y, mean of the three channels, per pixel.
  std::array<double, 2> slope(Point place) const;

  /// The linear map from XYZ as photographed to XYZ as corrected, at a place.
  Mat3 correction(Point place) const;

  /// Covariance of grey i's log gain over the three sharpened channels, from its own noise and texture.
  const Mat3& covariance(std::size_t i) const { return covariances_[i]; }

  /// Log gain of grey i, sharpened channels.
  const Vec3& logGain(std::size_t i) const { return log_gains_[i]; }

 private:
  Vec3 logGainAt(Point place) const;

  std::optional<LightMap> map_;
  std::optional<LightSlope> followed_;   ///< its middle is where the level was set
  std::optional<Vec3> level_;  ///< without greys: the log light that needs no gain
  bool paper_is_grey_ = false;
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
