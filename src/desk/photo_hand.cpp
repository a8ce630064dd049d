#include "desk/photo_hand.hpp"

#include <cmath>

#include "desk/region_outlines.hpp"

namespace huewright::desk {
namespace {

void press(PhotoViewState& view, const PhotoPlace& place, const std::vector<RegionPart>& parts, bool editable, const Hand& hand) {
  view.moved = false;
  view.grabbed = place.toPhoto(hand.pointer);
  view.before.reset();
  view.dragging = -1;
  if (view.adding > 0 && editable) {
    view.drawn_from = view.grabbed;
    return;
  }
  const Grip grip = editable && !view.hidden ? gripAt(place, parts, view.selected, hand.pointer, hand.reach) : Grip{};
  if (grip.part < 0) return;  // on empty ground: the choice goes on release, unless the photo was pulled along
  view.selected = grip.part;
  view.dragging = grip.grip;
  view.before = parts[static_cast<std::size_t>(grip.part)].quad;
}

std::optional<Quad> dragged(const PhotoViewState& view, const PhotoPlace& place, Point pointer) {
  if (view.dragging < 0 || !view.before) return std::nullopt;
  const Point now = place.toPhoto(pointer), by{now.x - view.grabbed.x, now.y - view.grabbed.y};
  if (view.dragging == 4) return quadMoved(*view.before, by, place.photo);
  const auto corner = static_cast<std::size_t>(view.dragging);
  const Point from = view.before->corners[corner];
  return cornerMoved(*view.before, corner, {from.x + by.x, from.y + by.y}, place.photo);
}

}  // namespace

std::string wordsOfMarking(PartKind kind) {
  switch (kind) {
    case PartKind::Card: return "marking the card";
    case PartKind::Grey: return "marking a grey";
    case PartKind::Black: return "marking the black chip";
    case PartKind::Panel: break;
  }
  return "marking the panel";
}

void keepPlace(PhotoViewState& view, const PhotoPlace& place) {
  view.zoom = isWhole(place) ? 0 : place.zoom;
  view.centre = place.centre;
}

Regions moveHand(PhotoViewState& view, PhotoPlace& place, const PhotoShown& photo, bool editable, const Hand& hand, Actions& out) {
  Regions regions = photo.regions;
  const auto parts = partsOf(regions);
  const int count = static_cast<int>(parts.size());
  if (view.selected >= count || !editable) view.selected = -1;
  if (view.selected < 0) view.dragging = -1;

  if (hand.over && hand.wheel != 0) place = zoomed(place, std::pow(kWheelFactor, hand.wheel), hand.pointer);
  if (hand.middle) place = panned(place, hand.pulled);
  if (hand.pressed) press(view, place, parts, editable, hand);

  if (hand.held && !view.drawn_from) {
    const Point start = place.toScreen(view.grabbed);
    const bool far = view.moved || std::hypot(hand.pointer.x - start.x, hand.pointer.y - start.y) >= hand.dead;
    if (view.dragging >= 0 && far) {
      const auto part = static_cast<std::size_t>(view.selected);
      const auto quad = dragged(view, place, hand.pointer);
      if (quad && *quad != parts[part].quad) {
        regions = withQuad(regions, part, *quad);
        out.push_back(act::SetRegions{photo.id, regions, "moving a region", view.moved});
        view.moved = true;
      }
    } else if (view.dragging < 0 && far) {
      // What was taken hold of stays under the pointer.
      place = panned(place, {hand.pointer.x - start.x, hand.pointer.y - start.y});
      view.moved = true;
    }
  }

  if (hand.released) {
    if (view.drawn_from) {
      if (const auto quad = quadBetween(*view.drawn_from, place.toPhoto(hand.pointer), place.photo)) {
        const auto kind = static_cast<PartKind>(view.adding - 1);
        AddedPart added = withPart(photo.regions, kind, *quad);
        regions = added.regions;
        out.push_back(act::SetRegions{photo.id, std::move(added.regions), wordsOfMarking(kind), false});
        view.selected = static_cast<int>(added.part);
        view.adding = 0;
      }
      view.drawn_from.reset();
    } else if (view.dragging < 0 && !view.moved) view.selected = -1;
    view.dragging = -1;
    view.before.reset();
  }
  keepPlace(view, place);
  return regions;
}

void nudge(PhotoViewState& view, PhotoPlace& place, const PhotoShown& photo, bool editable, Point by, double photo_step, bool joins, Actions& out) {
  const auto parts = partsOf(photo.regions);
  if (!editable || view.selected < 0 || view.selected >= static_cast<int>(parts.size())) {
    place = panned(place, {-by.x * photo_step, -by.y * photo_step});
    keepPlace(view, place);
    return;
  }
  const auto part = static_cast<std::size_t>(view.selected);
  const Quad moved = quadMoved(parts[part].quad, by, photo.size);
  if (moved != parts[part].quad) out.push_back(act::SetRegions{photo.id, withQuad(photo.regions, part, moved), "moving a region", joins});
}

}  // namespace huewright::desk
