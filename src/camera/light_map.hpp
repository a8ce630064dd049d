// How the light lies over the set-up, as plain white paper shows it.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "base/problem.hpp"
#include "camera/paper_spot.hpp"

namespace huewright {

/// A quadratic surface in the logarithm of each sharpened channel, fitted through paper spots so that shadows, dirt and things
/// that lie on the paper do not bend it, as long as they take up no more than about a third of the spots (a quarter of 12).
/// Beyond the spots' bounding box by more than a quarter of its size the surface goes on straight.
/// Sources: least trimmed squares with concentration steps for the start (Rousseeuw and Van Driessen 2006, Computing LTS regression for large
/// data sets), Tukey's biweight for what is kept (Huber and Ronchetti 2009, Robust Statistics, section 4.8), then weighted least squares.
class LightMap {
 public:
  /// In: at least 12 spots that spread over both directions; fewer, or spots in a line, are an error.
  /// Errors: SheetUnusable (detail: why), also when fewer than half of the spots agree.
  static Result<LightMap> fit(std::span<const PaperSpot> spots);

  /// Natural logarithm of the light in each sharpened channel at a place: that of the paper's brightness in the photo.
  Vec3 logLight(Point place) const;

  /// d logLight / dx and / dy, mean of the three channels, per pixel.
  std::array<double, 2> slope(Point place) const;

  /// Variance, one a channel, of logLight(a) − logLight(b): the fit's own covariance, scaled by the residuals. Grows outside the spots.
  /// On simulated spots the error over its deviation had a standard deviation of 0.9 to 1.1 (14 to 100 spots). Light that is no quadratic, or
  /// that the straight course far outside misses, is not in it.
  Vec3 variance(Point a, Point b) const;

  /// Robust standard deviation about the surface of the spots kept, mean of the channels, relative.
  double residual() const;

  /// For each spot given, in that order: how far its brightness lies from the surface (natural logarithm, mean of channels; negative is
  /// darker), and whether the surface was fitted through it.
  struct Departure {
    Point at;
    double log_ratio = 0;
    bool kept = true;
  };
  std::span<const Departure> departures() const { return departures_; }

 private:
  static constexpr std::size_t kTerms = 6;  ///< 1, u, v, u², uv, v²
  using Terms = std::array<double, kTerms>;

  LightMap() = default;
  Terms termsAt(Point place) const;

  Point centre_;                              ///< of the spots' box, which lies along their longest spread
  Point axis_{1, 0};                          ///< the way in which u runs
  std::array<double, 2> half_{1, 1};          ///< half the box's sides, pixels: u and v are -1 and 1 at them
  std::array<Terms, 3> coefficients_{};       ///< one set a channel
  std::array<Terms, kTerms> covariance_{};    ///< of the coefficients, for spots of unit variance
  Vec3 unit_variance_{};
  double residual_ = 0;
  std::vector<Departure> departures_;
};

}  // namespace huewright
