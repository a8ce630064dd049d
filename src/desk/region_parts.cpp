#include "desk/region_parts.hpp"

#include <algorithm>
#include <cmath>

namespace huewright::desk {
namespace {

constexpr double kSmallestArea = kSmallestRegion * kSmallestRegion;

Point heldInPicture(Point p, Size picture) {
  return {std::clamp(p.x, 0.0, static_cast<double>(picture.width)), std::clamp(p.y, 0.0, static_cast<double>(picture.height))};
}

bool usableQuad(const Quad& quad) { return isConvex(quad) && signedArea(quad) >= kSmallestArea; }

Quad* partAt(Regions& regions, std::size_t part) {
  if (part < regions.panels.size()) return &regions.panels[part];
  part -= regions.panels.size();
  if (regions.card && part-- == 0) return &*regions.card;
  if (part < regions.greys.size()) return &regions.greys[part];
  return regions.black && part == regions.greys.size() ? &*regions.black : nullptr;
}

}  // namespace

std::vector<RegionPart> partsOf(const Regions& regions) {
  std::vector<RegionPart> parts;
  for (std::size_t i = 0; i < regions.panels.size(); ++i)
    parts.push_back({PartKind::Panel, i, regions.panels[i], regions.panels.size() == 1 ? "panel" : i < 26 ? std::string("panel ") + static_cast<char>('A' + i) : "panel " + std::to_string(i + 1)});
  if (regions.card) parts.push_back({PartKind::Card, 0, *regions.card, "card"});
  for (std::size_t i = 0; i < regions.greys.size(); ++i) parts.push_back({PartKind::Grey, i, regions.greys[i], i == 0 ? "grey" : "grey " + std::to_string(i + 1)});
  if (regions.black) parts.push_back({PartKind::Black, 0, *regions.black, "black"});
  return parts;
}

Regions withQuad(Regions regions, std::size_t part, const Quad& quad) {
  if (Quad* at = partAt(regions, part)) *at = quad;
  return regions;
}

Regions withoutPart(Regions regions, std::size_t part) {
  const auto parts = partsOf(regions);
  if (part >= parts.size()) return regions;
  const auto index = static_cast<std::ptrdiff_t>(parts[part].index);
  switch (parts[part].kind) {
    case PartKind::Panel: regions.panels.erase(regions.panels.begin() + index); break;
    case PartKind::Card: regions.card.reset(); break;
    case PartKind::Grey: regions.greys.erase(regions.greys.begin() + index); break;
    case PartKind::Black: regions.black.reset(); break;
  }
  return regions;
}

AddedPart withPart(Regions regions, PartKind kind, const Quad& quad) {
  std::size_t part = 0;
  switch (kind) {
    case PartKind::Panel:
      regions.panels.push_back(quad);
      part = regions.panels.size() - 1;
      break;
    case PartKind::Card:
      regions.card = quad;
      part = regions.panels.size();
      break;
    case PartKind::Grey:
      regions.greys.push_back(quad);
      part = regions.panels.size() + (regions.card ? 1 : 0) + regions.greys.size() - 1;
      break;
    case PartKind::Black:
      regions.black = quad;
      part = regions.panels.size() + (regions.card ? 1 : 0) + regions.greys.size();
      break;
  }
  return {std::move(regions), part};
}

Quad cornerMoved(const Quad& quad, std::size_t corner, Point to, Size picture) {
  to = heldInPicture(to, picture);
  const Point from = quad.corners[corner];
  Quad moved = quad;
  const auto at = [&](double share) {
    moved.corners[corner] = {from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)};
    return usableQuad(moved);
  };
  if (at(1)) return moved;
  double good = 0, bad = 1;
  for (int i = 0; i < 30; ++i) {
    const double middle = 0.5 * (good + bad);
    (at(middle) ? good : bad) = middle;
  }
  return at(good) ? moved : quad;
}

Quad quadMoved(const Quad& quad, Point by, Size picture) {
  double left = picture.width, right = 0, top = picture.height, bottom = 0;
  for (const Point& p : quad.corners) {
    left = std::min(left, p.x);
    right = std::max(right, p.x);
    top = std::min(top, p.y);
    bottom = std::max(bottom, p.y);
  }
  const Point held{std::clamp(by.x, std::min(0.0, -left), std::max(0.0, picture.width - right)), std::clamp(by.y, std::min(0.0, -top), std::max(0.0, picture.height - bottom))};
  Quad moved = quad;
  for (Point& p : moved.corners) p = {p.x + held.x, p.y + held.y};
  return moved;
}

std::optional<Quad> quadBetween(Point a, Point b, Size picture) {
  a = heldInPicture(a, picture);
  b = heldInPicture(b, picture);
  const Point from{std::min(a.x, b.x), std::min(a.y, b.y)}, to{std::max(a.x, b.x), std::max(a.y, b.y)};
  if (to.x - from.x < kSmallestRegion || to.y - from.y < kSmallestRegion) return std::nullopt;
  return Quad{{{{from.x, from.y}, {to.x, from.y}, {to.x, to.y}, {from.x, to.y}}}};
}

}  // namespace huewright::desk
