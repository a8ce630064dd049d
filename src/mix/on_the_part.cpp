#include "mix/on_the_part.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "mix/mix_words.hpp"

namespace huewright {

PartAdvice onThePart(const Aim& aim, double share, double coats_so_far) {
  const std::vector<double> shares{share, 1 - share};
  PartAdvice out;
  out.now = aim.withRangeOf(aim.ofShares(shares, coats_so_far), shares);
  out.one_more = aim.withRangeOf(aim.ofShares(shares, coats_so_far + 1), shares);
  const MixChoice two_more = aim.ofShares(shares, coats_so_far + 2);
  // The number of coats that comes nearest, in steps of a twentieth.
  double least = 1e9;
  for (double n = std::max(coats_so_far - 3, 0.05); n <= coats_so_far + 8; n += 0.05)
    if (const double d = aim.ofShares(shares, n).de00; d < least) {
      least = d;
      out.missing = n - coats_so_far;
    }
  const std::string so_far = coatsWords(coats_so_far);
  const std::string now = distanceWords(out.now), then = distanceWords(out.one_more);
  if (two_more.score < out.one_more.score && out.one_more.score < out.now.score) {
    out.step = PartStep::MoreThanOne;
    out.sentence = fmt::format("With {} it is still ΔE00 {} off: spray one more coat, let it flash and judge again; about {} are missing.", so_far, now, coatStepWords(out.missing));
  } else if (out.one_more.score < out.now.score) {
    out.step = PartStep::OneMoreThenStop;
    out.sentence = fmt::format("With {} it is ΔE00 {} off: one more coat, then stop; that should leave {}.", so_far, now, then);
  } else if (out.now.over > 0.25 && out.now.low > 0) {
    out.step = PartStep::DoNotAdd;
    out.sentence = fmt::format("With {} it is {} already, ΔE00 {} off: do not add. Tint can be deepened, never lightened.", so_far,
                               stepWords(out.now).empty() ? "deeper than wanted" : stepWords(out.now), now);
  } else {
    out.step = PartStep::Stop;
    out.sentence = fmt::format("With {} it is as near as it gets, ΔE00 {}: stop. One more coat would make it {}.", so_far, now, then);
  }
  return out;
}

}  // namespace huewright
