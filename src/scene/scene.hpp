// What lies where in a photo, once it has been checked against the picture.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/caution.hpp"
#include "base/limits.hpp"
#include "base/problem.hpp"
#include "photo/geometry.hpp"

namespace huewright {

/// A printed grey dot and paper close by it, full-size pixels, clockwise.
struct DotPlace {
  Quad dot;                  ///< inside the disc, clear of its edge
  std::vector<Quad> paper;   ///< close round it, clear of its edge and of other ink
};

/// Checked regions: corners run clockwise, inside the picture, large enough, and none shares area with another. Of a mat, also what is not judged.
struct Scene {
  Regions regions;
  std::vector<Quad> paper{};         ///< spots of blank white paper
  std::vector<DotPlace> dots{};
  std::vector<Caution> cautions{};   ///< what was noticed when finding it
  std::vector<std::string> panel_names{};  ///< "the strip with 3 coats"; empty: those of panelName
  bool found_by_itself = false;      ///< on a mat, not marked by a person

  std::string nameOfPanel(std::size_t index) const;
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
