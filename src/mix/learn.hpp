// The panels that would teach the most.
#pragma once

#include <string>
#include <vector>

#include "mix/aim.hpp"

namespace huewright {

/// One panel to spray: a mix, and the coats of its strips (one: a plain panel; several: a stepped panel, a strip of tape peeled after each coat).
struct PlannedPanel {
  std::vector<int> parts;
  std::vector<double> coats;
};

struct LearnPlan {
  std::vector<PlannedPanel> panels;
  double sd_before = 0, sd_after = 0;   ///< of the colour of the mix in question, ΔE00, root sum of the axes, as expected
  std::string sentence;
};

/// Compares designs round the share and the coats in question: a stepped panel; two panels of other shares that bracket it; two shares at two numbers of coats. Each design's readings
/// are expected to shrink the tints' covariance as a linear update does (Kalman 1960, from memory). Taken is the design of fewest panels that brings sd_after under
/// kKnownWell, or else the one that brings it lowest. In: sigma of one reading.
LearnPlan whatTeachesMost(const Aim& aim, const MixLimits& limits, double share, double coats);

/// What the most telling design is told apart by: the colour of the next mix is known well enough. A choice.
inline constexpr double kKnownWell = 0.8;

/// "a stepped panel of 1:3 with 1, 2, 3 and 4 coats side by side", "1:4 and 1:2, both at 4 coats" …
std::string planWords(const std::vector<PlannedPanel>& panels);

}  // namespace huewright
