#include "desk/photo_place.hpp"

#include <algorithm>
#include <cmath>

namespace huewright::desk {
namespace {

Point heldOnPhoto(Point p, Size photo) {
  return {std::clamp(p.x, 0.0, static_cast<double>(photo.width)), std::clamp(p.y, 0.0, static_cast<double>(photo.height))};
}

}  // namespace

float overlayScale(const Field& field, float type_scale) { return std::min(type_scale, std::max(1.0f, static_cast<float>(field.height) / 320)); }

double wholeZoom(const Field& field, Size photo) { return std::min(std::max(1.0, field.width) / photo.width, std::max(1.0, field.height) / photo.height); }

Point PhotoPlace::toScreen(Point full) const {
  return {field.left + 0.5 * field.width + (full.x - centre.x) * zoom, field.top + 0.5 * field.height + (full.y - centre.y) * zoom};
}

Point PhotoPlace::toPhoto(Point screen) const {
  return {centre.x + (screen.x - field.left - 0.5 * field.width) / zoom, centre.y + (screen.y - field.top - 0.5 * field.height) / zoom};
}

bool PhotoPlace::onPhoto(Point full) const { return full.x >= 0 && full.y >= 0 && full.x < photo.width && full.y < photo.height; }

Rect PhotoPlace::shown(Size picture) const {
  const double across = static_cast<double>(picture.width) / photo.width, down = static_cast<double>(picture.height) / photo.height;
  const Point from = heldOnPhoto(toPhoto({field.left, field.top}), photo), to = heldOnPhoto(toPhoto({field.left + field.width, field.top + field.height}), photo);
  const int x = static_cast<int>(std::floor(from.x * across)), y = static_cast<int>(std::floor(from.y * down));
  return insidePicture({x, y, static_cast<int>(std::ceil(to.x * across)) - x, static_cast<int>(std::ceil(to.y * down)) - y}, picture);
}

PhotoPlace placeOf(const Field& field, Size photo, double zoom, Point centre) {
  const double whole = wholeZoom(field, photo);
  if (zoom <= whole) return {field, photo, whole, {0.5 * photo.width, 0.5 * photo.height}};
  return {field, photo, std::min(zoom, std::max(whole, kNearestZoom)), heldOnPhoto(centre, photo)};
}

PhotoPlace zoomed(const PhotoPlace& place, double factor, Point about) {
  const Point under = place.toPhoto(about);
  PhotoPlace next = placeOf(place.field, place.photo, place.zoom * factor, place.centre);
  if (isWhole(next)) return next;
  const Point now = next.toPhoto(about);
  next.centre = heldOnPhoto({next.centre.x + under.x - now.x, next.centre.y + under.y - now.y}, place.photo);
  return next;
}

PhotoPlace panned(const PhotoPlace& place, Point by) {
  if (isWhole(place)) return place;
  PhotoPlace next = place;
  next.centre = heldOnPhoto({place.centre.x - by.x / place.zoom, place.centre.y - by.y / place.zoom}, place.photo);
  return next;
}

bool isWhole(const PhotoPlace& place) { return place.zoom <= wholeZoom(place.field, place.photo); }

}  // namespace huewright::desk
