// What lies where in a photo, once it has been checked against the picture.
#pragma once

#include <cstddef>
#include <string>

#include "base/limits.hpp"
#include "base/problem.hpp"
#include "photo/geometry.hpp"

namespace huewright {

/// Checked regions: corners run clockwise, inside the picture, large enough, and none shares area with another.
struct Scene {
  Regions regions;
};

/// The shortest side that a region may have, pixels: below it no block statistics are left after the inset.
inline constexpr double kShortestSide = 8.0;

/// Checks regions that a person gave against a picture of that size.
/// Errors: RegionFolded, RegionOutside, RegionTooSmall, RegionsOverlap, TooManyPanels.
Result<Scene> arrange(const Regions& given, Size picture, const Limits& limits = {});

/// How sentences call a region: "the panel", or "panel B" when there are several; "the grey patch", or "grey patch 2".
std::string panelName(std::size_t index, std::size_t count);
std::string greyName(std::size_t index, std::size_t count);

}  // namespace huewright
