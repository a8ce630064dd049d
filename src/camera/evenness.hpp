// Brightness that differs between two places though the surface does not: what the slopes inside panel and card tell of it.
#pragma once

#include "camera/light.hpp"
#include "camera/patch.hpp"

namespace huewright {

struct Evenness {
  double log_ratio = 0;  ///< natural logarithm of the panel's brightness over the card's that is not the paint's doing
  double sd = 0;         ///< its standard deviation
};

/// Light that falls off, and a metallic ground whose brightness turns with the angle of light and view, show as slopes inside the
/// panel and the card. The mean of the two slopes times the way between the centres is the change from one to the other (exact for
/// a quadratic course: trapezoid rule). A film that was sprayed unevenly makes slopes as well, though little in the brightest
/// channel, which is the one that is read. The estimate is shrunk towards none by its own uncertainty, against the spread that
/// set-ups have (Bayes, normal prior). In: patches as sampled; what the greys already correct is taken off their slopes.
Evenness evennessBetween(const Patch& panel, const Patch& card, const Light& light);

/// How much the colour of the light changes over a way across the picture, as one grey patch shows it: the largest departure of a
/// channel's slope from the mean of the three, carried over the way; relative, 0 unless it stands clear of its own deviation by three
/// times. A grey has no film that could make such a slope.
double colourDriftOver(const Patch& grey, Point from, Point to);

}  // namespace huewright
