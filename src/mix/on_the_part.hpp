// Coats on the real part: add one, or stop.
#pragma once

#include <string>

#include "mix/aim.hpp"

namespace huewright {

enum class PartStep {
  MoreThanOne,      ///< two or more coats are still missing
  OneMoreThenStop,
  Stop,             ///< as near as it gets
  DoNotAdd,         ///< already deeper than wanted
};

struct PartAdvice {
  PartStep step{};
  MixChoice now, one_more;          ///< parts are empty
  double missing = 0;               ///< coats to the nearest, a real number; below zero: too many
  std::string sentence;
};

/// In: the mix's share of the strong tint, and coats that lie on the part. Whole coats are added; one more is advised when it is expected to come nearer by Aim's score, which minds going
/// too deep: a transparent tint can be deepened, never lightened.
PartAdvice onThePart(const Aim& aim, double share, double coats_so_far);

}  // namespace huewright
