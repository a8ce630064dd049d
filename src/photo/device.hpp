// What the camera or the file counts in, and the way from there to XYZ.
#pragma once

#include "colour/matrix.hpp"
#include "photo/photo.hpp"

namespace huewright {

/// From device values to XYZ (D50): of a raw file, its balance and its camera's own matrix; of a picture, linear sRGB's matrix. A raw file of a camera
/// that nobody knows counts as balanced sRGB, which is wrong in colour and only good for finding things and for a profile to undo.
Mat3 deviceToXyz(const PhotoFacts& facts);

/// Pixels as Photo::pixels gives them, made XYZ (D50): camera RGB goes through deviceToXyz, what is XYZ already stays.
void makeXyz(Raster& raster, const PhotoFacts& facts);

/// Photo::pixels in XYZ (D50), for raw files too: camera RGB through deviceToXyz. Errors: of Photo::pixels.
Result<std::vector<Raster>> xyzPixels(Photo& photo, std::span<const Rect> rects);

}  // namespace huewright
