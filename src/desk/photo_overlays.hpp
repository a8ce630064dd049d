// What lies over a photo as see-through pictures: the map of differences, and the pixels that were left out; each with its legend.
#pragma once

#include "desk/free_corner.hpp"
#include "desk/photo_place.hpp"
#include "desk/views.hpp"

namespace huewright::desk {

/// The point of a quad at shares u, v (0..1) along its sides: as a flat rectangle is seen in a photo. Source: Heckbert (1989), from memory. In: a convex quad.
Point inPerspective(const Quad& quad, double u, double v);

/// Stretches a picture over a quad of the photo, in perspective.
void drawOver(const PhotoPlace& place, const Quad& quad, const PictureRef& picture, Textures& textures);

/// The map and the marks that the state holds.
void drawMap(const PhotoPlace& place, Drawing& d);
void drawMarks(const PhotoPlace& place, Drawing& d);

/// Their legends, each in the corner of the field that hides least of what is `taken`; they are added to it.
void drawMapLegend(const Field& field, std::vector<Taken>& taken, Drawing& d);
void drawMarksLegend(const Field& field, std::vector<Taken>& taken, Drawing& d);

}  // namespace huewright::desk
