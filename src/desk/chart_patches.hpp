// A chart's photo with its patches outlined where they lie; those to look at are marked by shape and word.
#pragma once

#include "desk/views.hpp"

namespace huewright::desk {

/// The photo round its patches, or all of it where none was found, as an item as large as that fits into the room, px. Hovering a patch tells its name, its published colour, and how far off it is.
void drawChartPhoto(const ChartPhotoShown& photo, Textures& textures, float width, float height, const Look& look);

/// Which shapes there are and what they mean, for the patches of this photo.
void patchesKey(const ChartPhotoShown& photo, const Look& look);

}  // namespace huewright::desk
