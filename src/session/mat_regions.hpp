// What lies on the mat, as a scene to read.
#pragma once

#include <span>

#include "base/limits.hpp"
#include "base/problem.hpp"
#include "photo/photo.hpp"
#include "scene/mat_finder.hpp"
#include "scene/mat_layout.hpp"
#include "scene/scene.hpp"

namespace huewright {

/// The filled windows of a mat that was found, each drawn in to what lies in it. A card window that may be empty counts as filled, since a pale card
/// looks like paper. A strip's aperture counts as a panel. In: need_card false when the card is given as numbers. Errors: MatEmpty, saying which
/// windows are empty; MatNoCard for a strip, which has no window for one.
Result<Regions> regionsOnMat(const Preview& preview, const FoundMat& mat, bool need_card);

/// A mat with all that it shows: regions, blank paper, grey dots, and a caution where it was not printed to scale.
struct MatScene {
  Scene scene;
  double turn_deg = 0;   ///< of the sheet's upper edge in the picture, clockwise, -180 to 180
  Quad outline{};        ///< round all its markers, full-size pixels; the sheet's own top left corner first, then clockwise
};

/// Finds the mat in a photo and what lies on it, on a preview of at most 1500 pixels. In: the photo's full size. Errors: of findMat, regionsOnMat and arrange.
Result<MatScene> findMatScene(Size photo, const Preview& preview, std::span<const MatLayout> layouts, bool need_card, const Limits& limits = {});

}  // namespace huewright
