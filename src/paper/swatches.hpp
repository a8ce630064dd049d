// Colours side by side, their edges touching.
#pragma once

#include <span>

#include "colour/lab.hpp"
#include "paper/label_places.hpp"
#include "paper/pen.hpp"

namespace huewright {

/// True for a colour that sRGB cannot show, beyond what rounding to 8 bits hides: then toSrgb8 shows the nearest by cutting channels off.
bool outsideSrgb(const Lab<D50>& lab);

/// Equally wide, from left to right, nothing between them and a thin black frame round all. mm.
void drawSwatches(Pen& pen, const PlotBox& box, std::span<const Lab<D50>> labs);

}  // namespace huewright
