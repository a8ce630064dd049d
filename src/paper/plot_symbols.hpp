// The signs of a plot of panels. Each has a dark rim on a white one, so that it shows on any colour and without colour.
#pragma once

#include "paper/pen.hpp"

namespace huewright {

/// Half the width, mm.
inline constexpr double kPanelHalf = 1.9, kNextHalf = 4;

/// A panel: a square or a disc, and a cross over one that is left out.
void panelSymbol(Pen& pen, Point at, const Ink& ink, bool square, bool crossed);

/// The mix to spray next: a diamond, larger than a panel's sign.
void nextSymbol(Pen& pen, Point at, const Ink& ink, double half = kNextHalf);

/// A range from low to high, with caps that reach so far to either side, mm.
void errorBar(Pen& pen, Point low, Point high, double cap);

}  // namespace huewright
