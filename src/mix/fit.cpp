#include "mix/fit.hpp"

#include <Eigen/Dense>
#include <array>
#include <cmath>

#include "colour/delta_e.hpp"
#include "mix/least_squares.hpp"

namespace huewright {
namespace {

using Square = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

TintPrior looseTint(double k) {
  constexpr double kLnK = 1.2, kBeta = 0.15;
  TintPrior prior{{{k, k, k}, {0.08, 0.08, 0.08}}, std::vector<double>(kTintUnknowns * kTintUnknowns)};
  for (std::size_t i = 0; i < kTintUnknowns; ++i) prior.covariance[i * kTintUnknowns + i] = i < 3 ? kLnK * kLnK : kBeta * kBeta;
  return prior;
}

std::vector<Tint> tintsOf(std::span<const double> x, std::size_t count) {
  std::vector<Tint> tints(count);
  for (std::size_t t = 0; t < count; ++t)
    for (std::size_t c = 0; c < 3; ++c) {
      tints[t].k[c] = std::exp(x[kTintUnknowns * t + c]);
      tints[t].beta[c] = x[kTintUnknowns * t + 3 + c];
    }
  return tints;
}

constexpr double kLeastFilmSd = 1e-3;  // nobody sprays that evenly; keeps the sum finite

std::array<double, kTintUnknowns> unknownsOf(const Tint& tint) {
  return {std::log(tint.k[0]), std::log(tint.k[1]), std::log(tint.k[2]), tint.beta[0], tint.beta[1], tint.beta[2]};
}

FilmTerms filmsOf(std::span<const PanelReading> panels) {
  std::vector<double> coats;
  std::vector<int> pieces;
  for (const PanelReading& panel : panels) {
    coats.push_back(panel.coats);
    pieces.push_back(panel.piece);
  }
  return filmTerms(coats, pieces);
}

/// Turns the tints' unknowns less their means into independent numbers of variance 1.
Square whitenPriors(std::span<const TintPrior> priors, const std::vector<double>& together) {
  const auto own = static_cast<Eigen::Index>(kTintUnknowns * priors.size());
  Square covariance = Square::Zero(own, own);
  if (!together.empty()) covariance = Eigen::Map<const Square>(together.data(), own, own);
  constexpr Eigen::Index kOne = kTintUnknowns;
  for (std::size_t t = 0; t < priors.size() && together.empty(); ++t)
    covariance.block(kOne * static_cast<Eigen::Index>(t), kOne * static_cast<Eigen::Index>(t), kOne, kOne) = Eigen::Map<const Square>(priors[t].covariance.data(), kOne, kOne);
  return covariance.llt().matrixL().solve(Square::Identity(own, own));
}

/// The sum to be made small, for one belief of the film's spread. Unknowns: those of the tints, then ln of each film.
class TintTask {
 public:
  TintTask(std::span<const PanelReading> panels, const FilmTerms& films, std::span<const TintPrior> priors, const std::vector<double>& together, double per_axis, double film_sd)
      : panels_(panels), films_(films), per_axis_(per_axis), film_sd_(film_sd), own_(kTintUnknowns * priors.size()), tints_(priors.size()), whiten_(whitenPriors(priors, together)) {
    for (const TintPrior& prior : priors)
      for (const double v : unknownsOf(prior.mean)) mean_.push_back(v);
  }

  std::size_t unknowns() const { return own_ + films_.films; }
  std::size_t residuals() const { return 3 * panels_.size() + films_.films + own_; }

  bool evaluate(std::span<const double> x, std::span<double> r, std::span<double> j) const {
    const std::size_t n = unknowns();
    std::ranges::fill(j, 0.0);
    const std::vector<Tint> tints = tintsOf(x, tints_);
    if (!staysDefined(tints, x)) return false;
    std::size_t row = 0;
    for (std::size_t p = 0; p < panels_.size(); ++p) {
      const PanelReading& panel = panels_[p];
      const FilmColour colour = filmColour(tints, {panel.shares, panel.tint_part, panel.coats * std::exp(x[own_ + films_.of[p]])}, panel.ground);
      const DeltaVector delta = deltaVector(colour.lab, panel.lab);
      const double axis = std::sqrt(per_axis_ * per_axis_ + panel.extra);
      const Mat3 weighted = (1 / axis) * delta.by_panel;
      for (std::size_t a = 0; a < 3; ++a, ++row) {
        r[row] = delta.u[a] / axis;
        if (j.empty()) continue;
        for (std::size_t t = 0; t < tints_; ++t)
          for (std::size_t c = 0; c < 3; ++c) {
            j[row * n + kTintUnknowns * t + c] = dot(weighted.row[a], colour.by_ln_k[3 * t + c]);
            j[row * n + kTintUnknowns * t + 3 + c] = dot(weighted.row[a], colour.by_beta[3 * t + c]);
          }
        j[row * n + own_ + films_.of[p]] = dot(weighted.row[a], colour.by_ln_coats);
      }
    }
    for (const FilmPiece& piece : films_.pieces) {
      const std::size_t count = piece.coats.size();
      for (const double whitened : piece.whitened(x.subspan(own_))) r[row++] = whitened / film_sd_;
      for (std::size_t a = 0; a < count && !j.empty(); ++a)
        for (std::size_t b = 0; b <= a; ++b) j[(row - count + a) * n + own_ + piece.first + b] = piece.whiten[a * count + b] / film_sd_;
    }
    for (std::size_t a = 0; a < own_; ++a, ++row) {
      r[row] = 0;
      for (std::size_t b = 0; b <= a; ++b) {
        const double w = whiten_(static_cast<Eigen::Index>(a), static_cast<Eigen::Index>(b));
        r[row] += w * (x[b] - mean_[b]);
        if (!j.empty()) j[row * n + b] = w;
      }
    }
    return true;
  }

 private:
  /// A search may pass through β below 0, but not so far that a film would let more light through the deeper it is.
  bool staysDefined(const std::vector<Tint>& tints, std::span<const double> x) const {
    for (std::size_t p = 0; p < panels_.size(); ++p)
      for (std::size_t c = 0; c < 3; ++c) {
        double saturation = 1;
        for (std::size_t t = 0; t < tints.size(); ++t)
          saturation += panels_[p].tint_part * panels_[p].coats * std::exp(x[own_ + films_.of[p]]) * panels_[p].shares[t] * tints[t].k[c] * tints[t].beta[c];
        if (!(saturation > 0.3)) return false;
      }
    return true;
  }

  std::span<const PanelReading> panels_;
  const FilmTerms& films_;
  double per_axis_, film_sd_;
  std::size_t own_, tints_;
  std::vector<double> mean_;
  Square whiten_;
};

/// Expected square of a piece's whitened films, the mean over them.
double meanSquare(const FilmPiece& piece, const LeastSquaresFit& solved, std::size_t own) {
  const std::size_t count = piece.coats.size(), n = solved.x.size();
  double sum = 0;
  for (const double v : piece.whitened(std::span(solved.x).subspan(own))) sum += v * v;
  for (std::size_t r = 0; r < count; ++r)
    for (std::size_t a = 0; a <= r; ++a)
      for (std::size_t b = 0; b <= r; ++b)
        sum += piece.whiten[r * count + a] * piece.whiten[r * count + b] * solved.covariance[(own + piece.first + a) * n + own + piece.first + b];
  return sum / static_cast<double>(count);
}

}  // namespace

TintPrior strongPrior() { return looseTint(3); }
TintPrior weakPrior() { return looseTint(1); }

Result<TintFit> fitTints(std::span<const PanelReading> panels, std::span<const TintPrior> priors, const FitSettings& settings) {
  const std::size_t own = kTintUnknowns * priors.size();
  const FilmTerms films = filmsOf(panels);
  const std::size_t n = own + films.films;
  TintFit fit;
  fit.pieces = films.pieces.size();
  fit.per_axis = std::sqrt((settings.sigma * settings.sigma + kMisfit * kMisfit) / 3);
  fit.film_sd = std::max(settings.film_sd, kLeastFilmSd);
  std::vector<double> start;
  for (const TintPrior& prior : priors)
    for (const double v : unknownsOf(prior.mean)) start.push_back(v);
  start.resize(n, 0.0);

  const int rounds = settings.learn_film && fit.pieces >= kFilmLearns ? 4 : 1;
  for (int round = 0; round < rounds; ++round) {
    const TintTask terms(panels, films, priors, settings.together, fit.per_axis, fit.film_sd);
    LeastSquaresTask task;
    task.evaluate = [&terms](std::span<const double> x, std::span<double> r, std::span<double> j) { return terms.evaluate(x, r, j); };
    task.residuals = terms.residuals();
    task.start = start;
    task.lower.assign(n, -std::numeric_limits<double>::infinity());
    for (std::size_t i = 0; i < own; ++i)
      if (i % kTintUnknowns >= 3) task.lower[i] = 0;
    const auto solved = leastSquares(task);
    if (!solved) return std::unexpected(solved.error());
    start = solved->x;
    fit.converged = solved->converged;
    fit.sum_of_squares = solved->sum_of_squares;
    fit.tints = tintsOf(solved->x, priors.size());
    fit.ln_film.clear();
    for (const std::size_t film : films.of) fit.ln_film.push_back(solved->x[own + film]);
    fit.covariance.resize(own * own);
    for (std::size_t a = 0; a < own; ++a)
      for (std::size_t b = 0; b < own; ++b) fit.covariance[a * own + b] = solved->covariance[a * n + b];
    if (round + 1 == rounds) break;
    double sum = settings.film_weight * settings.film_sd * settings.film_sd;
    for (const FilmPiece& piece : films.pieces) sum += meanSquare(piece, *solved, own);
    fit.film_sd = std::sqrt(sum / (settings.film_weight + static_cast<double>(fit.pieces)));
  }
  for (std::size_t p = 0; p < panels.size(); ++p) {
    fit.fitted.push_back(filmLab(fit.tints, {panels[p].shares, panels[p].tint_part, panels[p].coats * std::exp(fit.ln_film[p])}, panels[p].ground));
    fit.misses.push_back(deltaE2000(fit.fitted.back(), panels[p].lab));
  }
  return fit;
}

}  // namespace huewright
