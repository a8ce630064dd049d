#include "mix/learn.hpp"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <set>

#include "mix/next_mix.hpp"

namespace huewright {
namespace {

using LearnMatrix = Eigen::MatrixXd;

/// ∂u/∂(ln k, β) at a film, u in CIEDE2000 units near the film's own colour.
LearnMatrix sensitivity(const Aim& aim, const std::vector<double>& shares, double coats, Vec3& by_film) {
  const auto& tints = aim.predictor().fit().tints;
  const FilmColour colour = filmColour(tints, {shares, aim.tintPartUsed(), coats}, sharpened(aim.ground()));
  const Mat3 metric = deltaVector(colour.lab, colour.lab).by_panel;
  LearnMatrix h(3, static_cast<Eigen::Index>(kTintUnknowns * tints.size()));
  for (std::size_t t = 0; t < tints.size(); ++t)
    for (std::size_t c = 0; c < 3; ++c) {
      const Vec3 by_k = metric * colour.by_ln_k[3 * t + c], by_beta = metric * colour.by_beta[3 * t + c];
      for (Eigen::Index a = 0; a < 3; ++a) {
        h(a, static_cast<Eigen::Index>(kTintUnknowns * t + c)) = by_k[static_cast<std::size_t>(a)];
        h(a, static_cast<Eigen::Index>(kTintUnknowns * t + 3 + c)) = by_beta[static_cast<std::size_t>(a)];
      }
    }
  by_film = metric * colour.by_ln_coats;
  return h;
}

std::vector<double> sharesOfTwo(const std::vector<int>& parts) {
  const double share = parts[0] / static_cast<double>(parts[0] + parts[1]);
  return {share, 1 - share};
}

double spreadAt(const LearnMatrix& covariance, const LearnMatrix& h) { return std::sqrt(std::max((h * covariance * h.transpose()).trace(), 0.0)); }

/// The covariance after a panel is read, all its strips at once: they share their coats.
void learnFrom(const Aim& aim, const PlannedPanel& panel, LearnMatrix& covariance) {
  const TintFit& fit = aim.predictor().fit();
  const auto strips = static_cast<Eigen::Index>(panel.coats.size());
  LearnMatrix h(3 * strips, covariance.cols()), film = LearnMatrix::Zero(3 * strips, strips), films(strips, strips);
  for (Eigen::Index s = 0; s < strips; ++s) {
    Vec3 by_film{};
    h.middleRows(3 * s, 3) = sensitivity(aim, sharesOfTwo(panel.parts), panel.coats[static_cast<std::size_t>(s)], by_film);
    for (Eigen::Index a = 0; a < 3; ++a) film(3 * s + a, s) = by_film[static_cast<std::size_t>(a)];
    for (Eigen::Index other = 0; other < strips; ++other)
      films(s, other) = fit.film_sd * fit.film_sd * filmCovariance(panel.coats[static_cast<std::size_t>(s)], panel.coats[static_cast<std::size_t>(other)]);
  }
  const LearnMatrix noise = fit.per_axis * fit.per_axis * LearnMatrix::Identity(3 * strips, 3 * strips) + film * films * film.transpose();
  const LearnMatrix gain = covariance * h.transpose() * (h * covariance * h.transpose() + noise).inverse();
  covariance = (covariance - gain * h * covariance).eval();
}

/// The whole parts nearest to a share, single tints left out.
std::vector<int> partsNear(double share, const MixLimits& limits) {
  std::vector<int> best{1, 1};
  double least = 2;
  for (const auto& parts : wholeParts(2, std::max(limits.max_total_parts, 2), limits.lines_only)) {
    if (parts[0] == 0 || parts[1] == 0) continue;
    if (const double d = std::abs(sharesOfTwo(parts)[0] - share); d < least - 1e-12) {
      least = d;
      best = parts;
    }
  }
  return best;
}

std::string joined(const std::vector<double>& numbers) {
  std::string words;
  for (std::size_t i = 0; i < numbers.size(); ++i)
    words += (i == 0 ? "" : i + 1 == numbers.size() ? " and " : ", ") + fmt::format("{:g}", numbers[i]);
  return words;
}

}  // namespace

std::string planWords(const std::vector<PlannedPanel>& panels) {
  if (panels.size() == 1 && panels[0].coats.size() > 1)
    return fmt::format("a stepped panel of {} with {} coats side by side", partsWords(panels[0].parts), joined(panels[0].coats));
  std::set<double> coats;
  std::vector<std::string> mixes;
  for (const PlannedPanel& panel : panels) {
    coats.insert(panel.coats.begin(), panel.coats.end());
    if (const std::string mix = partsWords(panel.parts); std::ranges::find(mixes, mix) == mixes.end()) mixes.push_back(mix);
  }
  std::string words;
  for (std::size_t i = 0; i < mixes.size(); ++i) words += (i == 0 ? "" : " and ") + mixes[i];
  const std::vector<double> sorted(coats.begin(), coats.end());
  if (sorted.size() == 1) return words + (mixes.size() > 1 ? ", both at " : " at ") + coatsWords(sorted[0]);
  return words + ", each at " + joined(sorted) + " coats";
}

LearnPlan whatTeachesMost(const Aim& aim, const MixLimits& limits, double share, double coats) {
  const TintFit& fit = aim.predictor().fit();
  const auto own = static_cast<Eigen::Index>(kTintUnknowns * fit.tints.size());
  const LearnMatrix before = Eigen::Map<const Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>>(fit.covariance.data(), own, own);
  const double middle = std::clamp(share, 0.15, 0.7);
  const std::vector<int> parts = partsNear(middle, limits), weaker = partsNear(0.65 * middle, limits), stronger = partsNear(std::min(1.5 * middle, 0.85), limits);
  const std::vector<double> within = coatsWithin(limits);
  const double fewer = std::max(within.front(), coats - 1), more = std::min(within.back(), std::max(coats, fewer + 1) + (coats - 1 < within.front() ? 0 : 1));
  std::vector<double> steps;
  for (double n = 1; n <= std::max(4.0, std::min(coats + 1, within.back())); ++n) steps.push_back(n);

  std::vector<std::vector<PlannedPanel>> designs{{{parts, steps}}, {{weaker, {coats}}, {stronger, {coats}}}};
  if (more > fewer) designs.push_back({{weaker, {fewer}}, {weaker, {more}}, {stronger, {fewer}}, {stronger, {more}}});
  Vec3 unused{};
  const LearnMatrix there = sensitivity(aim, {middle, 1 - middle}, coats, unused);
  LearnPlan best;
  for (const auto& design : designs) {
    if (design.size() > 1 && weaker == stronger) continue;
    LearnMatrix covariance = before;
    for (const PlannedPanel& panel : design) learnFrom(aim, panel, covariance);
    const double after = spreadAt(covariance, there);
    if (best.panels.empty() || (best.sd_after > kKnownWell && after < best.sd_after)) {
      best.panels = design;
      best.sd_after = after;
    }
  }
  best.sd_before = spreadAt(before, there);
  best.sentence = fmt::format("What would teach the most: {}.", planWords(best.panels));
  return best;
}

}  // namespace huewright
