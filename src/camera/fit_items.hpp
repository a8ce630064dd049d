// The patches of a chart on their way through a fit.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "camera/chart_light.hpp"
#include "camera/profile_fit.hpp"

namespace huewright {

/// A patch on its way through the fit.
struct FitItem {
  const FitPatch* patch = nullptr;
  std::size_t photo = 0, group = 0;
  bool used = false;
  Vec3 balanced{}, wanted{};   // wanted: XYZ
  Mat3 metric{};               // u by XYZ at the reference
  double base = 1, weight = 1;  // of each row: as the noise has it; set back for what is far off
  Point place;                 // -1..1 along either side of the chart
  double light = 0;            // natural log of the light's level there
};

/// XYZ of terms.
Vec3 through(const XyzByTerm& m, const Terms& t);

/// Balanced values of all items, from the photos' veils and balances and the light on each.
void balanceItems(std::vector<FitItem>& items, const RampCurve& curve, const std::vector<PhotoFit>& photos);

/// Each patch's place within its chart.
void placeItems(std::vector<FitItem>& items);

/// One step of each photo's gains towards what the map says, the mean over the photos kept: only their differences can be told from the map.
void refineGains(const std::vector<FitItem>& items, const XyzByTerm& terms, std::vector<PhotoFit>& photos);

/// A photo's slope, from one over its chart. In: placed items, some of that photo.
LightSlope slopeInPicture(const std::vector<FitItem>& items, std::size_t photo, const SlopeOver& over);

/// One step of each photo's light towards what the map leaves. In and out: a slope a photo, as refinedSlope has it.
void refineLight(std::vector<FitItem>& items, const XyzByTerm& terms, std::vector<SlopeOver>& slopes);

/// Patches that are far off, against the median of all, lose weight. Source: the weights of Cauchy's distribution.
void setBack(std::vector<FitItem>& items, const XyzByTerm& terms);

}  // namespace huewright
