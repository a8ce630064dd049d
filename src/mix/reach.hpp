// Whether the wanted colour can be had at all.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mix/aim.hpp"

namespace huewright {

struct Reach {
  bool reachable = true;              ///< the nearest that any share and allowed coats come may be within kReached
  double nearest = 0, low = 0;        ///< ΔE00 of the nearest, and its low end
  std::string stays;                  ///< how the nearest still leans: "greener and deeper"; empty when nothing is left to name
  std::optional<double> coats;        ///< coats beyond the limits that would do
  std::optional<std::string> ground;  ///< a known ground that would do
  bool other_pigment = false;         ///< no share, coats or known ground comes within kOtherPigment
};

/// Looks over all shares (not only whole parts) and all whole coats: first within the limits, then from 1 to 12, then on the other grounds.
Reach reachOf(const Aim& aim, const MixLimits& limits, const std::vector<NamedGround>& grounds);

/// A distance that passes beside a neighbouring part, and one that only other stuff explains. Common practice, no source.
inline constexpr double kReached = 1.0, kOtherPigment = 2.0;

}  // namespace huewright
