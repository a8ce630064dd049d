#include "desk/free_corner.hpp"

#include <algorithm>
#include <limits>

namespace huewright::desk {
namespace {

double sharedArea(const Field& a, const Field& b) {
  const double x = std::min(a.left + a.width, b.left + b.width) - std::max(a.left, b.left), y = std::min(a.top + a.height, b.top + b.height) - std::max(a.top, b.top);
  return std::max(0.0, x) * std::max(0.0, y);
}

}  // namespace

std::vector<Taken> boxesOf(const PhotoPlace& place, const std::vector<RegionPart>& parts) {
  std::vector<Taken> boxes;
  for (const RegionPart& part : parts) {
    Point low = place.toScreen(part.quad.corners[0]), high = low;
    for (const Point& corner : part.quad.corners) {
      const Point p = place.toScreen(corner);
      low = {std::min(low.x, p.x), std::min(low.y, p.y)};
      high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
    boxes.push_back({{low.x, low.y, high.x - low.x, high.y - low.y}, part.kind == PartKind::Panel || part.kind == PartKind::Card ? 4.0 : 1.0});
  }
  return boxes;
}

FreeCorner freeCorner(const Field& field, double width, double height, double away, std::span<const Taken> others, const Point* pointer) {
  const double left = field.left + std::max(0.0, std::min(away, field.width - width)), right = std::max(left, field.left + field.width - width - away);
  const double top = field.top + std::max(0.0, std::min(away, field.height - height)), foot = std::max(top, field.top + field.height - height - away);
  FreeCorner best{{}, std::numeric_limits<double>::infinity()};
  for (const Point& corner : {Point{left, foot}, Point{right, foot}, Point{left, top}, Point{right, top}}) {
    const Field box{corner.x, corner.y, width, height};
    double hidden = pointer && box.holds(*pointer) ? 1e12 : 0;
    for (const Taken& other : others) hidden += other.weight * sharedArea(box, other.box);
    if (hidden < best.hidden - 1) best = {box, hidden};  // a pixel's worth is nothing
  }
  return best;
}

}  // namespace huewright::desk
