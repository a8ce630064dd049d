// What a mix will look like, and how sure that is.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "mix/fit.hpp"

namespace huewright {

/// Relative standard deviation of all absorbances over a ground that no panel lies on: light crosses the film more often over a diffuse ground than over a metallic one, which a ground's
/// colour does not tell. Set on the renderer, where ln k varies by 0.14 over its four grounds, so by 0.2 between two.
inline constexpr double kOtherGround = 0.2;

/// 0 for two readings of one ground, to 1 for quite different ones: 1 − exp(−(ΔE00 / 3)² / 2).
double strangeBetween(const Lab<D50>& a, const Lab<D50>& b);

struct Prediction {
  Lab<D50> lab;
  Mat3 covariance;                  ///< of lab: the tints' uncertainty (delta method) and the model's own misfit; without the next panel's film
  Vec3 by_ln_coats{};               ///< ∂Lab/∂ln coats
  std::vector<Vec3> by_share;       ///< ∂Lab/∂share of each tint, the others held
  Mat3 with_film;                   ///< covariance of the next panel's colour: the film's spread as well
};

/// Fitted tints, and what the panels' residuals say near them.
class Predictor {
 public:
  /// Keeps copies of what it needs. Home: the ground that the fit's priors are for, where that is not simply the panels'.
  Predictor(TintFit fit, std::vector<PanelReading> panels, std::optional<Lab<D50>> home = {});

  const TintFit& fit() const { return fit_; }
  const std::vector<PanelReading>& panels() const { return panels_; }

  /// The colour of a film over a ground. Local correction: the panels' residuals (reading less fit), weighted by a kernel of how alike shares, amount of tint
  /// and ground are, as simple kriging with the misfit's variance does; what is left of that variance is in the covariance. Lengths of the kernel: 0.25 in share, 0.5 in
  /// ln(amount of tint), 10 ΔE00 in the ground; tuned on the renderer. Over a ground that
  /// is neither home nor any panel's, kOtherGround is added. Accuracy: see docs/advise.md.
  Prediction at(const Film& film, const Vec3& ground) const;

  /// Only the colour, faster.
  Lab<D50> labAt(const Film& film, const Vec3& ground) const;

 private:
  std::vector<double> kernel(const Film& film, const Vec3& ground) const;
  double strangeness(const Vec3& ground) const;

  TintFit fit_;
  std::vector<PanelReading> panels_;
  std::optional<Lab<D50>> home_;
  std::vector<Lab<D50>> grounds_;
  std::vector<Vec3> left_;          // Lab read less Lab fitted
  std::vector<double> inverse_;     // of the residuals' covariance, one axis
  std::vector<Vec3> weights_;       // inverse_ times left_
};

}  // namespace huewright
