#include "mix/reach.hpp"

#include <algorithm>

#include "mix/mix_words.hpp"
#include "mix/next_mix.hpp"

namespace huewright {
namespace {

struct Nearest {
  double de00 = 1e9, low = 1e9, coats = 0;
  Lab<D50> lab;
};

Nearest nearestOf(const Aim& aim, const std::vector<double>& coats) {
  Nearest out;
  for (const double n : coats) {
    const BestShare best = aim.bestShare(n);
    if (best.de00 >= out.de00) continue;
    const Prediction p = aim.predict({best.share, 1 - best.share}, n);
    const DeltaVector delta = deltaVector(p.lab, aim.target());
    out = {best.de00, distanceRange(delta.u, delta.by_panel * p.covariance * transpose(delta.by_panel)).low, n, p.lab};
  }
  return out;
}

}  // namespace

Reach reachOf(const Aim& aim, const MixLimits& limits, const std::vector<NamedGround>& grounds) {
  const Nearest here = nearestOf(aim, coatsWithin(limits));
  Reach reach;
  reach.nearest = here.de00;
  reach.low = here.low;
  reach.reachable = here.low <= kReached;
  if (reach.reachable) return reach;
  reach.stays = leanWords(here.lab, aim.target());
  std::vector<double> any;
  for (double n = 1; n <= 12; ++n) any.push_back(n);
  const Nearest wider = nearestOf(aim, any);
  double least_low = std::min(here.low, wider.low);
  if (wider.low <= kReached && wider.de00 < 0.5 * here.de00) reach.coats = wider.coats;
  for (const NamedGround& ground : grounds) {
    const Aim over(aim.predictor(), aim.target(), ground.lab, aim.tintPartUsed());
    const Nearest there = nearestOf(over, any);
    least_low = std::min(least_low, there.low);
    if (!reach.ground && there.low <= kReached && there.de00 < 0.5 * here.de00) reach.ground = ground.name;
  }
  reach.other_pigment = least_low > kOtherPigment;
  return reach;
}

}  // namespace huewright
