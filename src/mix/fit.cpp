#include "mix/fit.hpp"

#include <Eigen/Dense>
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

/// The sum to be made small, for one belief of the film's spread. Unknowns: those of the tints, then ln film of each panel.
class TintTask {
 public:
  TintTask(std::span<const PanelReading> panels, std::span<const TintPrior> priors, double per_axis, double film_sd)
      : panels_(panels), priors_(priors), per_axis_(per_axis), film_sd_(film_sd), own_(kTintUnknowns * priors.size()) {
    for (const TintPrior& prior : priors) {
      const Square covariance = Eigen::Map<const Square>(prior.covariance.data(), kTintUnknowns, kTintUnknowns);
      whiten_.push_back(Square(covariance.llt().matrixL().solve(Square::Identity(kTintUnknowns, kTintUnknowns))));
    }
  }

  std::size_t unknowns() const { return own_ + panels_.size(); }
  std::size_t residuals() const { return 4 * panels_.size() + own_; }

  bool evaluate(std::span<const double> x, std::span<double> r, std::span<double> j) const {
    const std::size_t n = unknowns();
    std::ranges::fill(j, 0.0);
    const std::vector<Tint> tints = tintsOf(x, priors_.size());
    if (!staysDefined(tints, x)) return false;
    std::size_t row = 0;
    for (std::size_t p = 0; p < panels_.size(); ++p) {
      const PanelReading& panel = panels_[p];
      const FilmColour colour = filmColour(tints, {panel.shares, panel.tint_part, panel.coats * std::exp(x[own_ + p])}, panel.ground);
      const DeltaVector delta = deltaVector(colour.lab, panel.lab);
      const double axis = std::sqrt(per_axis_ * per_axis_ + panel.extra);
      const Mat3 weighted = (1 / axis) * delta.by_panel;
      for (std::size_t a = 0; a < 3; ++a, ++row) {
        r[row] = delta.u[a] / axis;
        if (j.empty()) continue;
        for (std::size_t t = 0; t < priors_.size(); ++t)
          for (std::size_t c = 0; c < 3; ++c) {
            j[row * n + kTintUnknowns * t + c] = dot(weighted.row[a], colour.by_ln_k[3 * t + c]);
            j[row * n + kTintUnknowns * t + 3 + c] = dot(weighted.row[a], colour.by_beta[3 * t + c]);
          }
        j[row * n + own_ + p] = dot(weighted.row[a], colour.by_ln_coats);
      }
    }
    for (std::size_t p = 0; p < panels_.size(); ++p, ++row) {
      r[row] = x[own_ + p] / film_sd_;
      if (!j.empty()) j[row * n + own_ + p] = 1 / film_sd_;
    }
    for (std::size_t t = 0; t < priors_.size(); ++t) {
      const auto mean = unknownsOf(priors_[t].mean);
      for (std::size_t a = 0; a < kTintUnknowns; ++a, ++row) {
        r[row] = 0;
        for (std::size_t b = 0; b <= a; ++b) {
          const double w = whiten_[t](static_cast<Eigen::Index>(a), static_cast<Eigen::Index>(b));
          r[row] += w * (x[kTintUnknowns * t + b] - mean[b]);
          if (!j.empty()) j[row * n + kTintUnknowns * t + b] = w;
        }
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
          saturation += panels_[p].tint_part * panels_[p].coats * std::exp(x[own_ + p]) * panels_[p].shares[t] * tints[t].k[c] * tints[t].beta[c];
        if (!(saturation > 0.3)) return false;
      }
    return true;
  }

  std::span<const PanelReading> panels_;
  std::span<const TintPrior> priors_;
  double per_axis_, film_sd_;
  std::size_t own_;
  std::vector<Square> whiten_;
};

}  // namespace

TintPrior strongPrior() { return looseTint(3); }
TintPrior weakPrior() { return looseTint(1); }

Result<TintFit> fitTints(std::span<const PanelReading> panels, std::span<const TintPrior> priors, const FitSettings& settings) {
  const std::size_t own = kTintUnknowns * priors.size(), n = own + panels.size();
  TintFit fit;
  fit.per_axis = std::sqrt((settings.sigma * settings.sigma + kMisfit * kMisfit) / 3);
  fit.film_sd = std::max(settings.film_sd, kLeastFilmSd);
  std::vector<double> start;
  for (const TintPrior& prior : priors)
    for (const double v : unknownsOf(prior.mean)) start.push_back(v);
  start.resize(n, 0.0);

  const int rounds = settings.learn_film && panels.size() >= kFilmLearns ? 4 : 1;
  for (int round = 0; round < rounds; ++round) {
    const TintTask terms(panels, priors, fit.per_axis, fit.film_sd);
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
    fit.ln_film.assign(solved->x.begin() + static_cast<std::ptrdiff_t>(own), solved->x.end());
    fit.covariance.resize(own * own);
    for (std::size_t a = 0; a < own; ++a)
      for (std::size_t b = 0; b < own; ++b) fit.covariance[a * own + b] = solved->covariance[a * n + b];
    if (round + 1 == rounds) break;
    double sum = settings.film_weight * settings.film_sd * settings.film_sd;
    for (std::size_t p = 0; p < panels.size(); ++p) sum += fit.ln_film[p] * fit.ln_film[p] + solved->covariance[(own + p) * n + own + p];
    fit.film_sd = std::sqrt(sum / (settings.film_weight + static_cast<double>(panels.size())));
  }
  for (std::size_t p = 0; p < panels.size(); ++p) {
    fit.fitted.push_back(filmLab(fit.tints, {panels[p].shares, panels[p].tint_part, panels[p].coats * std::exp(fit.ln_film[p])}, panels[p].ground));
    fit.misses.push_back(deltaE2000(fit.fitted.back(), panels[p].lab));
  }
  return fit;
}

}  // namespace huewright
