// A grey patch measured against the greys of a chart beside it.
#pragma once

#include <expected>
#include <span>
#include <string>

#include "camera/patch.hpp"
#include "camera/profile.hpp"
#include "camera/profile_fit.hpp"

namespace huewright {

/// One patch of the chart: as it goes into a fit, and as it was sampled (its trends are read).
struct ChartGrey {
  FitPatch fit;
  Patch patch;
};

struct GreyByChart {
  Lab<D50> lab;
  Vec3 lab_sd{};         ///< standard deviations of L*, a*, b*
  double light = 0;      ///< natural log of the light at the grey over that at the middle of the chart's greys
  double light_sd = 0;   ///< its standard deviation, relative
};

/// Measures a grey.
///
/// The chart's profile takes the grey near its colour. What is still off there, at that lightness, the chart's own greys tell: the natural logs of the
/// sharpened channels (Bradford) of published over fitted, evened to the light at the grey's place, straight between the two chart greys next in
/// lightness. Light that falls off shows as slopes inside the chart's patches and the grey: their means, and between chart and grey the trapezoid rule.
///
/// Its deviation is of: what each of the chart's greys misses when the others tell it; the grey's own noise; the light between the places; the chart
/// in hand, which is not the one that was published (nothing of that with the user's own data); and a grey that is no flat spectrum, which a camera sees
/// otherwise than the eye, in proportion to its tint. Sizes: judgement, tried on simulated scenes (tests/session/grey_test.cpp).
///
/// In: the grey in XYZ (D50) as xyzPixels gives it, and its device values; the chart's patches, all of them; the map fitted to them; own_data: the
/// references are measured values of this very chart. Errors, as the end of a sentence: fewer than three usable greys on the chart.
std::expected<GreyByChart, std::string> greyByChart(const Patch& grey, const Vec3& grey_device, const Mat3& device_from_xyz, std::span<const ChartGrey> chart, const ColourMap& map,
                                                    bool own_data);

}  // namespace huewright
