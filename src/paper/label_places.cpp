#include "paper/label_places.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace huewright {
namespace {

constexpr double kLabelGap = 0.5;    // mm between a label and anything else
constexpr double kNearLabel = 1.5;   // mm on top of `away`, from where a line is drawn
constexpr int kLabelWays = 16, kLabelRings = 14;
constexpr double kRingStep = 2.5;    // mm

/// The label in that direction from its point, its nearest edge or corner so far away.
PlotBox labelAt(const LabelWish& wish, double angle, double away) {
  const double dx = std::cos(angle), dy = std::sin(angle);
  const double x = wish.point.x + dx * (away + wish.width / 2), y = wish.point.y + dy * (away + wish.height / 2);
  return {x - wish.width / 2, y - wish.height / 2, wish.width, wish.height};
}

PlotBox grown(const PlotBox& box, double by) { return {box.x - by, box.y - by, box.width + 2 * by, box.height + 2 * by}; }

bool holdsAny(const PlotBox& box, std::span<const Point> points) {
  return std::ranges::any_of(points, [&](const Point& p) { return p.x >= box.x && p.x <= box.x + box.width && p.y >= box.y && p.y <= box.y + box.height; });
}

}  // namespace

bool boxesOverlap(const PlotBox& a, const PlotBox& b) {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

bool boxInside(const PlotBox& box, const PlotBox& room) {
  return box.x >= room.x && box.y >= room.y && box.x + box.width <= room.x + room.width && box.y + box.height <= room.y + room.height;
}

std::vector<LabelPlace> placeLabels(std::span<const LabelWish> wishes, const PlotBox& room, std::span<const PlotBox> taken, std::span<const Point> rather_not) {
  std::vector<LabelPlace> places;
  std::vector<PlotBox> full(taken.begin(), taken.end());
  for (const LabelWish& wish : wishes) {
    LabelPlace best;
    double least = 1e9;
    for (int ring = 0; ring < kLabelRings; ++ring)
      for (int way = 0; way < kLabelWays; ++way) {
        // Right, left, then the others, so that equal places are taken in the order in which people look for them.
        const double turn = (way % 2 == 0 ? way / 2 : kLabelWays / 2 + way / 2) * 2 * std::numbers::pi / kLabelWays;
        const PlotBox box = labelAt(wish, turn, wish.away + ring * kRingStep);
        if (!boxInside(box, room)) continue;
        const PlotBox with_gap = grown(box, kLabelGap);
        const auto hits = std::ranges::count_if(full, [&](const PlotBox& other) { return boxesOverlap(with_gap, other); });
        const double cost = 1000.0 * static_cast<double>(hits) + (holdsAny(with_gap, rather_not) ? 5.5 : 0) + ring;
        if (cost < least) {
          least = cost;
          best = {box, ring * kRingStep > kNearLabel};
        }
      }
    if (least >= 1e9)  // no room at all: over its point, moved into the room
      best.box = {std::max(room.x, std::min(wish.point.x, room.x + room.width - wish.width)), std::max(room.y, std::min(wish.point.y, room.y + room.height - wish.height)), wish.width, wish.height};
    full.push_back(best.box);
    places.push_back(best);
  }
  return places;
}

}  // namespace huewright
