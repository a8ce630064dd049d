// Where a photo lies on the screen: between screen pixels and the photo's full-size pixels.
#pragma once

#include "photo/geometry.hpp"

namespace huewright::desk {

/// A field of the screen, screen pixels.
struct Field {
  double left = 0, top = 0, width = 0, height = 0;
  bool holds(Point p) const { return p.x >= left && p.y >= top && p.x < left + width && p.y < top + height; }
};

/// Scale of lines, tags and legends over the photo: that of the type, but less in a low field, so that they do not hide the photo; at least 1 unless the type's is less. Chosen by eye.
float overlayScale(const Field& field, float type_scale);

/// Screen pixels per full-size pixel that show the whole photo in the field. In: sizes above zero.
double wholeZoom(const Field& field, Size photo);

/// Nearest that one can go: screen pixels per full-size pixel. Chosen by eye.
inline constexpr double kNearestZoom = 40.0;

struct PhotoPlace {
  Field field;
  Size photo;
  double zoom = 1;                   ///< screen pixels per full-size pixel
  Point centre;                      ///< full-size pixels, in the middle of the field

  Point toScreen(Point full) const;
  Point toPhoto(Point screen) const;
  /// True when the full-size point lies on the photo.
  bool onPhoto(Point full) const;
  /// The part of a picture of that size, of this photo, that the field shows; whole pixels, at least one.
  Rect shown(Size picture) const;
};

/// In: zoom 0 shows the whole photo, whatever the centre; else the zoom is held between that of the whole photo and kNearestZoom, and the centre on the photo.
PhotoPlace placeOf(const Field& field, Size photo, double zoom, Point centre);

/// The place after a zoom by a factor: the photo's point under `about` (screen pixels) stays there, unless the centre would leave the photo.
PhotoPlace zoomed(const PhotoPlace& place, double factor, Point about);

/// The place after the photo was pulled along by so many screen pixels; its centre stays on the photo.
PhotoPlace panned(const PhotoPlace& place, Point by);

/// True when a place shows the whole photo.
bool isWhole(const PhotoPlace& place);

}  // namespace huewright::desk
