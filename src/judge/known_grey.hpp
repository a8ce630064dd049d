// The grey patch's own colour: where it is known from, and how well.
#pragma once

#include <optional>
#include <string_view>

#include "colour/lab.hpp"
#include "colour/matrix.hpp"

namespace huewright {

/// A grey patch as it was measured.
struct KnownGrey {
  Lab<D50> lab;
  Vec3 lab_sd{};  ///< standard deviations of L*, a*, b*, > 0
};

/// Luminance factor, 0..1. Accuracy: that of double. Source: CIE 15:2018, 8.2.1.
double luminanceOf(const KnownGrey& grey);

/// Its standard deviation, from that of L* by the derivative.
double luminanceSd(const KnownGrey& grey);

/// What the greys' colour in a reading was taken from.
enum class GreyFrom {
  Nothing,  ///< there is no grey
  Assumed,  ///< a neutral of kAssumedGreyY
  Told,     ///< a neutral of a luminance factor that was given
  Kept,     ///< measured beside a chart earlier
  Chart,    ///< a chart in the same photo sets level and tint, and the greys only show how the light lies
};

/// "nothing", "assumed", "told", "kept", "chart".
std::string_view greyFromName(GreyFrom from);

struct GreyUsed {
  GreyFrom from = GreyFrom::Nothing;
  std::optional<KnownGrey> colour{};  ///< of Kept
};

/// Standard deviation, relative, of the brightness that a chart elsewhere in the photo sets; greys that are known better keep it. Judgement, tried on
/// simulated scenes.
inline constexpr double kChartLevel = 0.02;

}  // namespace huewright
