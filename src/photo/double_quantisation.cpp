#include "photo/double_quantisation.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace huewright {
namespace {

constexpr int kMostSteps = 40;       // sizes of a coefficient that are looked at, in steps
constexpr int kMostEarlier = 48;     // earlier steps that are tried
constexpr std::uint64_t kFewest = 300;
// Rounding of 8-bit pixels, and of their way to RGB and back, on one coefficient: √(1/12 + (0.299² + 0.587² + 0.114²)/12) = 0.35; clipping adds.
constexpr double kPixelNoise = 0.4;
constexpr double kVisible = 0.15;    // relative spread of the pattern below which an earlier step leaves no trace worth trying
constexpr std::array<double, 9> kScales{0.3, 0.5, 0.8, 1.3, 2.2, 3.6, 6, 10, 20};  // of the Laplace distributions, in present steps
constexpr int kRounds = 25;

// Set on simulated photos (tests/figures/trust_figures.cpp); no published source.
constexpr double kClearPerSample = 0.03;  // nats: one coefficient speaks for an earlier step
constexpr double kClearGain = 15;
constexpr double kMeanPerSample = 0.03;
constexpr int kInFavour = 3;

using Bins = std::array<double, kMostSteps + 1>;  // [1..kMostSteps]

double below(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

/// Share of coefficients that were at n earlier steps and end in bin k of the present ones.
struct Way {
  int n, k;
  double share;
};

std::vector<Way> waysFrom(int earlier, int now) {
  std::vector<Way> ways;
  for (int n = 0; n * earlier <= (kMostSteps + 1) * now; ++n)
    for (int k = 1; k <= kMostSteps; ++k) {
      const double low = ((k - 0.5) * now - n * earlier) / kPixelNoise, high = ((k + 0.5) * now - n * earlier) / kPixelNoise;
      if (high < -4 || low > 4) continue;
      if (const double share = below(high) - below(low); share > 1e-5) ways.push_back({n, k, share});
    }
  return ways;
}

/// Mass of a symmetric Laplace distribution (both signs) that rounds to n steps.
double mass(double scale, double step, int n) {
  return n == 0 ? 1 - std::exp(-0.5 * step / scale) : std::exp(-(n - 0.5) * step / scale) - std::exp(-(n + 0.5) * step / scale);
}

/// One row for each scale: the shares of the bins, adding up to 1. In: the earlier step, 0 for none.
std::vector<Bins> componentsOf(int earlier, int now) {
  std::vector<Bins> all;
  const std::vector<Way> ways = earlier > 0 ? waysFrom(earlier, now) : std::vector<Way>{};
  for (const double relative : kScales) {
    const double scale = relative * now;
    Bins bins{};
    if (earlier > 0)
      for (const Way& way : ways) bins[static_cast<std::size_t>(way.k)] += way.share * mass(scale, earlier, way.n);
    else
      for (int k = 1; k <= kMostSteps; ++k) bins[static_cast<std::size_t>(k)] = mass(scale, now, k);
    double sum = 0;
    for (const double b : bins) sum += b;
    if (!(sum > 1e-12)) continue;  // nothing of so narrow a distribution gets past zero
    for (double& b : bins) b = (1 - 1e-4) * b / sum + 1e-4 / kMostSteps;  // a stray coefficient must not decide
    all.push_back(bins);
  }
  return all;
}

/// Logarithm of the likelihood of the best mixture.
double logLikelihood(const std::vector<Bins>& components, const Bins& counts, double total) {
  std::vector<double> weights(components.size(), 1.0 / static_cast<double>(components.size()));
  double best = -1e300;
  for (int round = 0; round < kRounds; ++round) {
    std::vector<double> next(weights.size());
    double log_likelihood = 0;
    for (std::size_t k = 1; k < counts.size(); ++k) {
      if (counts[k] == 0) continue;
      double p = 0;
      for (std::size_t j = 0; j < weights.size(); ++j) p += weights[j] * components[j][k];
      log_likelihood += counts[k] * std::log(p);
      for (std::size_t j = 0; j < weights.size(); ++j) next[j] += counts[k] * weights[j] * components[j][k] / p;
    }
    for (std::size_t j = 0; j < weights.size(); ++j) weights[j] = next[j] / total;
    best = log_likelihood;
  }
  return best;
}

/// True when an earlier step makes the bins uneven enough to be told from a smooth course.
bool leavesPattern(int earlier, int now) {
  Bins even{};
  for (const Way& way : waysFrom(earlier, now)) even[static_cast<std::size_t>(way.k)] += way.share;
  double sum = 0, squares = 0;
  int n = 0;
  for (int k = 1; k <= std::min(kMostSteps, 24); ++k, ++n) {
    const double v = even[static_cast<std::size_t>(k)] * earlier / now;
    sum += v;
    squares += v * v;
  }
  const double mean = sum / n;
  return mean > 0 && std::sqrt(std::max(0.0, squares / n - mean * mean)) > kVisible * mean;
}

}  // namespace

std::optional<EarlierStep> earlierStep(const CoefficientCounts& coefficient) {
  Bins counts{};
  double total = 0;
  for (std::size_t k = 1; k < counts.size() && k < coefficient.counts.size(); ++k) total += counts[k] = coefficient.counts[k];
  if (total < static_cast<double>(kFewest) || coefficient.step < 1) return std::nullopt;
  const double once = logLikelihood(componentsOf(0, coefficient.step), counts, total);
  std::optional<EarlierStep> best;
  for (int earlier = 2; earlier <= kMostEarlier; ++earlier) {
    if (earlier == coefficient.step || !leavesPattern(earlier, coefficient.step)) continue;
    const double gain = logLikelihood(componentsOf(earlier, coefficient.step), counts, total) - once;
    if (!best || gain > best->gain) best = EarlierStep{earlier, gain, static_cast<std::uint64_t>(total)};
  }
  return best;
}

DoubleQuantisation doubleQuantisation(const std::vector<CoefficientCounts>& coefficients) {
  DoubleQuantisation result;
  double gain = 0, samples = 0;
  for (const CoefficientCounts& coefficient : coefficients) {
    const auto earlier = earlierStep(coefficient);
    if (!earlier) continue;
    const auto n = static_cast<double>(earlier->samples);
    ++result.looked_at;
    gain += earlier->gain;
    samples += n;
    if (earlier->gain > kClearGain && earlier->gain > kClearPerSample * n) ++result.in_favour;
  }
  if (samples > 0) result.per_sample = gain / samples;
  result.twice = result.in_favour >= kInFavour && 2 * result.in_favour > result.looked_at && result.per_sample > kMeanPerSample;
  return result;
}

}  // namespace huewright
