// What lies on the mat, as regions to read.
#pragma once

#include <span>

#include "base/problem.hpp"
#include "photo/photo.hpp"
#include "scene/mat_finder.hpp"
#include "scene/mat_layout.hpp"

namespace huewright {

/// The filled windows of a mat that was found. A card window that may be empty counts as filled, since a pale card looks like paper.
/// A strip's aperture counts as a panel. In: need_card false when the card is given as numbers. Errors: MatEmpty, saying which windows are
/// empty; MatNoCard for a strip, which has no window for one.
Result<Regions> regionsOnMat(const Preview& preview, const FoundMat& mat, bool need_card);

/// Finds the mat in a photo and what lies on it, on a preview of at most 1500 pixels. Errors: of findMat, regionsOnMat and Photo::preview.
Result<Regions> findRegions(Photo& photo, std::span<const MatLayout> layouts, bool need_card);

}  // namespace huewright
