#include "camera/tone_local.hpp"

#include <algorithm>
#include <cmath>

#include "camera/robust.hpp"

namespace huewright {
namespace {

constexpr std::size_t kFewestPlaces = 4;
constexpr double kPrinter = 0.012;  // relative, from dot to dot of one sheet; judgement, no source

double logMean(const Vec3& sharp) { return (std::log(sharp[0]) + std::log(sharp[1]) + std::log(sharp[2])) / 3; }

}  // namespace

std::optional<double> toneSpread(std::span<const DotSpot> dots) {
  std::vector<double> contrast, noise;
  for (const DotSpot& d : dots) {
    if (d.paper.empty()) continue;
    double paper = 0, variance = d.dot.scatter * d.dot.scatter;
    const auto n = static_cast<double>(d.paper.size());
    for (const PaperSpot& p : d.paper) {
      paper += logMean(p.sharp) / n;
      variance += p.scatter * p.scatter / (n * n);
    }
    contrast.push_back(logMean(d.dot.sharp) - paper);
    noise.push_back(variance);
  }
  if (contrast.size() < kFewestPlaces) return {};
  // The two thirds nearest to the middle: what lies beside a shadow's edge does not count.
  const double middle = medianOf(contrast), own = medianOf(noise) + kPrinter * kPrinter;
  std::vector<double> off;
  for (const double c : contrast) off.push_back(std::abs(c - middle));
  std::ranges::sort(off);
  constexpr double kTwoThirds = 0.967;  // normal quantile of (1 + 2/3) / 2
  const auto at = std::max<std::size_t>(1, (2 * off.size() + 2) / 3) - 1;
  const double sd = off[at] / kTwoThirds;
  return std::sqrt(std::max(0.0, sd * sd - own));
}

}  // namespace huewright
