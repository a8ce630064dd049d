#include "mix/aim.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace huewright {
namespace {

std::vector<double> sharesOf(const std::vector<int>& parts) {
  const double all = std::accumulate(parts.begin(), parts.end(), 0);
  std::vector<double> shares(parts.size());
  std::ranges::transform(parts, shares.begin(), [all](int p) { return p / all; });
  return shares;
}

void shareOut(std::size_t tint, int left, std::vector<int>& parts, std::vector<std::vector<int>>& out) {
  if (tint + 1 == parts.size()) {
    parts[tint] = left;
    if (std::accumulate(parts.begin(), parts.end(), 0, [](int a, int b) { return std::gcd(a, b); }) == 1) out.push_back(parts);
    return;
  }
  for (int p = 0; p <= left; ++p) {
    parts[tint] = p;
    shareOut(tint + 1, left - p, parts, out);
  }
}

}  // namespace

double MixChoice::share() const { return parts.front() / static_cast<double>(std::accumulate(parts.begin(), parts.end(), 0)); }

Aim::Aim(const Predictor& predictor, const Lab<D50>& target, const Lab<D50>& ground, double tint_part)
    : predictor_(predictor), target_(target), ground_(ground), ground_rgb_(sharpened(ground)), tint_part_(tint_part) {}

Prediction Aim::predict(const std::vector<double>& shares, double coats) const { return predictor_.at({shares, tint_part_, coats}, ground_rgb_); }

MixChoice Aim::at(const std::vector<int>& parts, double coats) const {
  MixChoice choice = ofShares(sharesOf(parts), coats);
  choice.parts = parts;
  return choice;
}

MixChoice Aim::withRange(MixChoice choice) const {
  const std::vector<double> shares = sharesOf(choice.parts);
  return withRangeOf(std::move(choice), shares);
}

MixChoice Aim::ofShares(const std::vector<double>& shares, double coats) const {
  const Prediction p = predict(shares, coats);
  const DeltaVector delta = deltaVector(p.lab, target_);
  MixChoice choice;
  choice.coats = coats;
  choice.lab = p.lab;
  choice.u = delta.u;
  choice.de00 = length(delta.u);
  const Mat3 covariance = delta.by_panel * p.with_film * transpose(delta.by_panel);
  const Vec3 deeper = delta.by_panel * p.by_ln_coats;
  const double steep = length(deeper);
  choice.score = choice.de00;
  if (steep > 1e-9) {
    const Vec3 way = (1 / steep) * deeper;
    const double t = dot(delta.u, way);
    choice.over = t / steep * coats;
    choice.by_coats = std::abs(t);
    choice.score += kOvershoot * meanAbove(t, std::sqrt(std::max(dot(way, covariance * way), 0.0)));
  }
  return choice;
}

MixChoice Aim::withRangeOf(MixChoice choice, const std::vector<double>& shares) const {
  const Prediction p = predict(shares, choice.coats);
  const DeltaVector delta = deltaVector(p.lab, target_);
  const DistanceRange range = distanceRange(delta.u, delta.by_panel * p.with_film * transpose(delta.by_panel));
  choice.low = range.low;
  choice.high = range.high;
  return choice;
}

BestShare Aim::bestShare(double coats) const {
  const auto distance = [&](double share) {
    const std::vector<double> shares{share, 1 - share};
    return deltaE2000(predictor_.labAt({shares, tint_part_, coats}, ground_rgb_), target_);
  };
  constexpr int kSteps = 40;
  int best = 0;
  double least = distance(0);
  for (int i = 1; i <= kSteps; ++i)
    if (const double d = distance(static_cast<double>(i) / kSteps); d < least) {
      least = d;
      best = i;
    }
  // Golden section between the neighbours; Kiefer (1953).
  double low = std::max(best - 1, 0) / static_cast<double>(kSteps), high = std::min(best + 1, kSteps) / static_cast<double>(kSteps);
  constexpr double kGolden = 0.6180339887498949;
  double a = high - kGolden * (high - low), b = low + kGolden * (high - low), at_a = distance(a), at_b = distance(b);
  while (high - low > 1e-5) {
    if (at_a < at_b) {
      high = b;
      b = a;
      at_b = at_a;
      a = high - kGolden * (high - low);
      at_a = distance(a);
    } else {
      low = a;
      a = b;
      at_a = at_b;
      b = low + kGolden * (high - low);
      at_b = distance(b);
    }
  }
  BestShare out;
  out.share = 0.5 * (low + high);
  const Prediction p = predict({out.share, 1 - out.share}, coats);
  const DeltaVector delta = deltaVector(p.lab, target_);
  const Vec3 slope = delta.by_panel * (p.by_share[0] - p.by_share[1]);
  const Mat3 covariance = delta.by_panel * p.covariance * transpose(delta.by_panel);
  const double steep2 = dot(slope, slope);
  out.sd = steep2 > 1e-12 ? std::sqrt(std::max(dot(slope, covariance * slope), 0.0)) / steep2 : 1.0;
  out.de00 = length(delta.u);
  return out;
}

std::vector<std::vector<int>> wholeParts(std::size_t tints, int max_total, bool lines_only) {
  std::vector<std::vector<int>> out;
  for (int total = 1; total <= max_total; ++total) {
    std::vector<int> parts(tints);
    shareOut(0, total, parts, out);
  }
  if (lines_only && tints == 2) std::erase_if(out, [](const std::vector<int>& p) { return p[0] != 1 && p[1] != 1; });
  return out;
}

std::string partsWords(const std::vector<int>& parts) {
  std::string words;
  for (const int p : parts) words += (words.empty() ? "" : ":") + std::to_string(p);
  return words;
}

}  // namespace huewright
