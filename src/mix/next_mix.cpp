#include "mix/next_mix.hpp"

#include <algorithm>
#include <cmath>

namespace huewright {
namespace {

double trustIn(const BestShare& best, double share) { return std::abs(best.share - share) / std::max(best.sd, 1e-6); }

ShareWay wayOf(const Aim& aim, const NextMix& next, const LastPanel& last) {
  if (std::abs(next.choice.share() - last.share) < 1e-9 && next.trust < 2) return next.best.sd < 0.05 ? ShareWay::Keep : ShareWay::Unknown;
  if (next.trust < 1) return ShareWay::Unknown;
  const bool up = next.best.share > last.share;
  // With other coats than the last panel's the share depends on what tints do with depth: where that is a guess, nothing is said.
  if (last.coats != next.choice.coats) {
    const Prediction p = aim.predict({next.choice.share(), 1 - next.choice.share()}, next.choice.coats);
    const Mat3 metric = deltaVector(p.lab, p.lab).by_panel;
    if (trace(metric * p.covariance * transpose(metric)) > kGuessed * kGuessed) return ShareWay::Unknown;
  }
  return up ? ShareWay::Increase : ShareWay::Decrease;
}

/// Whether other numbers of coats would do as well for all that the panels tell: the difference of the two distances lies within its standard deviation.
bool tradesWithCoats(const Aim& aim, const NextMix& next, const std::vector<double>& coats) {
  for (const double other : coats) {
    if (std::abs(other - next.choice.coats) != 1) continue;
    const BestShare there = aim.bestShare(other);
    const Prediction p = aim.predict({there.share, 1 - there.share}, other);
    const DeltaVector delta = deltaVector(p.lab, aim.target());
    const double sd = std::sqrt(std::max(trace(delta.by_panel * p.covariance * transpose(delta.by_panel)), 0.0));
    if (there.de00 - next.best.de00 < sd && there.share > 0.01 && there.share < 0.99) return true;
  }
  return false;
}

}  // namespace

std::vector<double> coatsWithin(const MixLimits& limits) {
  std::vector<double> coats;
  for (double n = std::ceil(limits.coats_low); n <= limits.coats_high; ++n) coats.push_back(n);
  return coats;
}

NextMix nextMix(const Aim& aim, const MixLimits& limits, const std::optional<LastPanel>& last) {
  const std::vector<double> coats = coatsWithin(limits);
  std::vector<MixChoice> all;
  for (const auto& parts : wholeParts(2, limits.max_total_parts, limits.lines_only))
    for (const double n : coats) all.push_back(aim.at(parts, n));
  std::ranges::sort(all, {}, &MixChoice::score);

  NextMix next;
  next.choice = all.front();
  const MixChoice first = all.front();
  for (const MixChoice& other : all) {
    if (other.score - first.score > kEqual) break;
    if (other.share() <= next.choice.share() + 1e-9 || deltaE2000(other.lab, first.lab) > kTwins) continue;
    if (other.coats < limits.even_coats && other.coats < first.coats) {
      next.kept_weaker = true;
      if (!next.twin) next.twin = other;
      continue;
    }
    next.choice = other;
    next.kept_weaker = false;
    next.twin = first;
  }
  next.choice = aim.withRange(next.choice);
  if (next.twin) next.twin = aim.withRange(*next.twin);
  next.best = aim.bestShare(next.choice.coats);
  if (last) {
    next.trust = trustIn(next.best, last->share);
    next.direction = wayOf(aim, next, *last);
  }
  next.shares_and_coats_trade = tradesWithCoats(aim, next, coats);
  return next;
}

}  // namespace huewright
