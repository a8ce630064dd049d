// A stepped panel: strips with 0, 1, 2 … coats side by side, split where the photo shows the edges.
#pragma once

#include <vector>

#include "base/problem.hpp"
#include "photo/photo.hpp"

namespace huewright {

/// Splits a panel along its longer side into so many strips. Edges are found where the colour changes, in all three channels; strips need not be
/// of one width; lines that masking tape leaves (ridges, gaps, a bead of paint) at the edges are left out, and so is a rim.
/// In: pixels that cover the panel's quad (clockwise, not inset); count 2 … 12. Out: the strips from the left to the right, or from the
/// top to the bottom, of the upright picture: as seen, whatever corner the quad starts with; each clockwise and clear of its neighbours' edges.
/// A step counts from 1 % and four standard errors on (ln Y, ln X/Y or ln Z/Y); a smooth fall-off of the light, mottle and flakes are none.
/// On simulated panels (2 to 8 strips, tape's lines, slants, flakes, steps down to 1.5 ΔE00) about 1 in 100 fails (tests/camera/steps_test.cpp).
/// Errors: StepsNotFound, with a detail that says how many strips could be told apart, that there are more, or that they are too narrow.
Result<std::vector<Quad>> findSteps(const Raster& raster, const Quad& panel, std::size_t count);

}  // namespace huewright
