// Tints fitted to measured panels.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "base/problem.hpp"
#include "mix/film_spread.hpp"
#include "mix/tint_model.hpp"

namespace huewright {

/// A panel as it was sprayed and read.
struct PanelReading {
  std::vector<double> shares;       ///< of each tint; they add up to 1
  double tint_part = 1.0 / 7.0;     ///< tint / (tint + carrier)
  double coats = 0;                 ///< as meant
  Vec3 ground{};                    ///< sharpened RGB of the bare ground under it
  Lab<D50> lab;                     ///< as read
  double extra = 0;                 ///< variance of one axis on top of the reading's, CIEDE2000 units squared, such as a predicted clear's
  int piece = kNoPiece;             ///< strips of one stepped panel have one number, and one mix
};

/// Unknowns of one tint: ln k of the three channels, then β of the three channels.
inline constexpr std::size_t kTintUnknowns = 6;

/// What is known of a tint before the panels of this series: normal in (ln k, β).
struct TintPrior {
  Tint mean;
  std::vector<double> covariance;   ///< 6 × 6, row by row, positive definite
};

/// Priors for tints of which nothing is known: ln k ~ N(ln 3, 1.2) or N(0, 1.2), β ~ N(0.08, 0.15). How strong tints are is a guess of the right size, and wide;
/// β's spread was widened from 0.08 since the renderer's reds reach 0.6.
TintPrior strongPrior();
TintPrior weakPrior();

/// Relative spread of the film build from panel to panel at kFilmCoats coats, one standard deviation; a guess for careful spraying by hand.
inline constexpr double kFilmSd = 0.05;

struct FitSettings {
  double sigma = 0.3;               ///< of one reading, ΔE00 as the root sum of the three axes
  double film_sd = kFilmSd;         ///< what is believed of the film's spread …
  double film_weight = 10;          ///< … worth so many pieces; from kFilmLearns pieces on it is learned …
  bool learn_film = true;           ///< … if this is set
  std::vector<double> together{};   ///< covariance of all tints' unknowns before the panels, row by row, positive definite; empty: each prior's own, and nothing between tints
};
inline constexpr std::size_t kFilmLearns = 6;

/// How far the model itself may be off after a fit, root sum of the three axes, ΔE00. Set on the renderer: paints within a painter's range around
/// four panels are missed by 0.18 / 0.68 (median / 95th) without any noise.
inline constexpr double kMisfit = 0.25;

struct TintFit {
  std::vector<Tint> tints;
  std::vector<double> covariance;   ///< of all tints' unknowns, row by row
  double film_sd = kFilmSd;         ///< learned or believed
  std::size_t pieces = 0;           ///< that the films are of: plain panels, and stepped ones as a whole
  std::vector<double> ln_film;      ///< of each panel: film sprayed over film meant, natural logarithm
  std::vector<Lab<D50>> fitted;     ///< of each panel, its film included
  std::vector<double> misses;       ///< ΔE00 between reading and fitted colour
  double per_axis = 0;              ///< standard deviation of one axis of a panel's residual, reading and misfit
  double sum_of_squares = 0;        ///< of all weighted residuals, priors and films included
  bool converged = false;
};

/// Levenberg-Marquardt on CIEDE2000-weighted Lab residuals of all panels, priors, and the panels' films (normal, film_sd; strips of one piece as film_spread.hpp has them).
/// β is kept >= 0. The film's spread is learned by expectation and maximisation, three rounds (Dempster, Laird, Rubin 1977, from memory); a piece counts once, by the mean
/// over its films, so that a stepped panel is not taken for as many panels as it has strips.
/// In: one prior a tint; panels of as many shares; none at all gives the priors back. Errors: Internal.
Result<TintFit> fitTints(std::span<const PanelReading> panels, std::span<const TintPrior> priors, const FitSettings& settings);

}  // namespace huewright
