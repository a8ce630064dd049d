// A mix over other grounds.
#pragma once

#include <string>
#include <vector>

#include "mix/prediction.hpp"
#include "mix/series.hpp"

namespace huewright {

struct GroundLook {
  std::string name;
  Lab<D50> ground, lab;
  double sd = 0;                       ///< of lab, ΔE00, root sum of the axes, the film's spread included
  double de00 = 0;                     ///< from the look over the first ground
  std::string words;                   ///< against the first ground: "deeper and browner"; empty for the first, "much the same" when nothing can be named
  std::string lean;                    ///< a warning, when few coats lean to another hue than the finished colour; else empty
};

/// The accepted mix over each ground, the first being the one it was accepted on. Words: deeper or lighter by L*; and of warmer, cooler, browner, greener, and the plain hue words the
/// one that fits: browner is deeper and towards yellow-red, warmer towards yellow-red, cooler towards blue. The lean is computed: the look at 1 and at 2 coats against the finished one; it is
/// told when the hue turns by more than kLeanDegrees while there is a hue at all.
std::vector<GroundLook> overGrounds(const Predictor& predictor, double share, double tint_part, double coats, const std::vector<NamedGround>& grounds);

/// Degrees of CIELAB hue that even a painter without the finished panel beside it would call another colour. A choice.
inline constexpr double kLeanDegrees = 25;

}  // namespace huewright
