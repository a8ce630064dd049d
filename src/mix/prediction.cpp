#include "mix/prediction.hpp"

#include <Eigen/Dense>
#include <cmath>

#include "colour/delta_e.hpp"

namespace huewright {
namespace {

constexpr double kShareLength = 0.25, kAmountLength = 0.5, kGroundLength = 10, kSameGround = 3;  // ΔE00: two readings of one ground lie well within the last
constexpr double kMisfitVariance = kMisfit * kMisfit / 3;  // one axis

using KernelMatrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

double squared(double v) { return v * v; }

double alike(const Film& a, const Lab<D50>& ground_a, const Film& b, const Lab<D50>& ground_b) {
  double apart = 0;
  for (std::size_t t = 0; t < a.shares.size(); ++t) apart += 0.5 * squared((a.shares[t] - b.shares[t]) / kShareLength);
  apart += squared(std::log(std::max(a.tint_part * a.coats, 1e-6) / std::max(b.tint_part * b.coats, 1e-6)) / kAmountLength);
  if (!(ground_a == ground_b)) apart += squared(deltaE2000(ground_a, ground_b) / kGroundLength);
  return std::exp(-0.5 * apart);
}

Film filmOf(const PanelReading& panel) { return {panel.shares, panel.tint_part, panel.coats}; }

}  // namespace

double strangeBetween(const Lab<D50>& a, const Lab<D50>& b) { return 1 - std::exp(-0.5 * squared(deltaE2000(a, b) / kSameGround)); }

Predictor::Predictor(TintFit fit, std::vector<PanelReading> panels, std::optional<Lab<D50>> home) : fit_(std::move(fit)), panels_(std::move(panels)), home_(home) {
  const std::size_t n = panels_.size();
  for (const PanelReading& panel : panels_) grounds_.push_back(labOfSharpened(panel.ground));
  KernelMatrix k(static_cast<Eigen::Index>(n), static_cast<Eigen::Index>(n));
  const double noise = squared(fit_.per_axis) - kMisfitVariance;  // of one reading
  for (std::size_t i = 0; i < n; ++i) {
    left_.push_back(toVec(panels_[i].lab) - toVec(fit_.fitted[i]));
    for (std::size_t j = 0; j < n; ++j)
      k(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) =
          kMisfitVariance * alike(filmOf(panels_[i]), grounds_[i], filmOf(panels_[j]), grounds_[j]) + (i == j ? std::max(noise, 1e-6) + panels_[i].extra : 0.0);
  }
  const KernelMatrix inverted = k.inverse();
  inverse_.assign(inverted.data(), inverted.data() + inverted.size());
  weights_.resize(n);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j) weights_[i] = weights_[i] + inverse_[i * n + j] * left_[j];
}

std::vector<double> Predictor::kernel(const Film& film, const Vec3& ground) const {
  std::vector<double> k(panels_.size());
  const Lab<D50> lab = k.empty() ? Lab<D50>{} : labOfSharpened(ground);
  for (std::size_t i = 0; i < k.size(); ++i) k[i] = kMisfitVariance * alike(film, lab, filmOf(panels_[i]), ground == panels_[i].ground ? lab : grounds_[i]);
  return k;
}

/// 0 on the home ground and on those of the panels, to 1 far from all of them; 0 where there are none.
double Predictor::strangeness(const Vec3& ground) const {
  if (panels_.empty() && !home_) return 0;
  const Lab<D50> lab = labOfSharpened(ground);
  double least = home_ ? strangeBetween(lab, *home_) : 1;
  for (std::size_t i = 0; i < panels_.size(); ++i)
    least = std::min(least, ground == panels_[i].ground ? 0.0 : strangeBetween(lab, grounds_[i]));
  return least;
}

Lab<D50> Predictor::labAt(const Film& film, const Vec3& ground) const {
  Lab<D50> lab = filmLab(fit_.tints, film, ground);
  const std::vector<double> k = kernel(film, ground);
  for (std::size_t i = 0; i < k.size(); ++i) {
    lab.L += k[i] * weights_[i][0];
    lab.a += k[i] * weights_[i][1];
    lab.b += k[i] * weights_[i][2];
  }
  return lab;
}

Prediction Predictor::at(const Film& film, const Vec3& ground) const {
  const FilmColour colour = filmColour(fit_.tints, film, ground);
  Prediction out;
  out.by_ln_coats = colour.by_ln_coats;
  out.by_share = colour.by_share;
  const std::vector<double> k = kernel(film, ground);
  Vec3 lab = toVec(colour.lab);
  double left = kMisfitVariance;
  const std::size_t n = k.size();
  for (std::size_t i = 0; i < n; ++i) {
    lab = lab + k[i] * weights_[i];
    for (std::size_t j = 0; j < n; ++j) left -= k[i] * inverse_[i * n + j] * k[j];
  }
  out.lab = {lab[0], lab[1], lab[2]};

  const std::size_t own = kTintUnknowns * fit_.tints.size();
  std::vector<Vec3> by(own);
  for (std::size_t t = 0; t < fit_.tints.size(); ++t)
    for (std::size_t c = 0; c < 3; ++c) {
      by[kTintUnknowns * t + c] = colour.by_ln_k[3 * t + c];
      by[kTintUnknowns * t + 3 + c] = colour.by_beta[3 * t + c];
    }
  for (std::size_t a = 0; a < own; ++a) {
    Vec3 sum{};
    for (std::size_t b = 0; b < own; ++b) sum = sum + fit_.covariance[a * own + b] * by[b];
    out.covariance = out.covariance + outer(by[a], sum);
  }
  // The misfit is alike in all directions of CIEDE2000; turned into Lab.
  const Mat3 to_lab = inverse(deltaVector(out.lab, out.lab).by_panel);
  out.covariance = out.covariance + std::max(left, 0.0) * (to_lab * transpose(to_lab));
  const double strange = kOtherGround * strangeness(ground);
  out.covariance = out.covariance + (strange * strange) * outer(out.by_ln_coats, out.by_ln_coats);
  const double film_sd = filmSd(fit_.film_sd, film.coats);
  out.with_film = out.covariance + (film_sd * film_sd) * outer(out.by_ln_coats, out.by_ln_coats);
  return out;
}

}  // namespace huewright
