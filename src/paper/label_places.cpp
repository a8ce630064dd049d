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
constexpr double kCrowd = 4.5;       // mm
constexpr double kPastSign = 6;      // rings further out rather than past a sign

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

struct LabelLine {
  Point from, to;
};

/// Whether a part of the line lies in the box: what is left of it after cutting it off at the box's four sides (Liang and Barsky 1984, from memory).
bool lineInBox(const LabelLine& line, const PlotBox& box) {
  double begin = 0, end = 1;
  const auto cut = [&](double at, double step, double low, double high) {
    if (step == 0) return at > low && at < high;
    const double a = (low - at) / step, b = (high - at) / step;
    begin = std::max(begin, std::min(a, b));
    end = std::min(end, std::max(a, b));
    return begin < end;
  };
  return cut(line.from.x, line.to.x - line.from.x, box.x, box.x + box.width) && cut(line.from.y, line.to.y - line.from.y, box.y, box.y + box.height);
}

/// A sign so near the point that a line from the point cannot seem to be that sign's.
bool inCrowdOf(Point point, const PlotBox& sign) {
  const Point near = labelTie(sign, point);
  return std::hypot(near.x - point.x, near.y - point.y) < kCrowd;
}

}  // namespace

Point labelTie(const PlotBox& box, Point point) { return {std::clamp(point.x, box.x, box.x + box.width), std::clamp(point.y, box.y, box.y + box.height)}; }

bool boxesOverlap(const PlotBox& a, const PlotBox& b) {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

bool boxInside(const PlotBox& box, const PlotBox& room) {
  return box.x >= room.x && box.y >= room.y && box.x + box.width <= room.x + room.width && box.y + box.height <= room.y + room.height;
}

std::vector<LabelPlace> placeLabels(std::span<const LabelWish> wishes, const PlotBox& room, std::span<const PlotBox> taken, std::span<const Point> rather_not) {
  std::vector<LabelPlace> places;
  std::vector<PlotBox> full(taken.begin(), taken.end()), labels;
  std::vector<LabelLine> lines;
  for (const LabelWish& wish : wishes) {
    LabelPlace best;
    double least = 1e9;
    bool free = false;
    for (int ring = 0; ring < kLabelRings; ++ring)
      for (int way = 0; way < kLabelWays; ++way) {
        // Right, left, then the others, so that equal places are taken in the order in which people look for them.
        const double turn = (way % 2 == 0 ? way / 2 : kLabelWays / 2 + way / 2) * 2 * std::numbers::pi / kLabelWays;
        const PlotBox box = labelAt(wish, turn, wish.away + ring * kRingStep);
        if (!boxInside(box, room)) continue;
        const PlotBox with_gap = grown(box, kLabelGap);
        const bool far = ring * kRingStep > kNearLabel;
        const LabelLine line{wish.point, labelTie(box, wish.point)};
        auto hits = std::ranges::count_if(full, [&](const PlotBox& other) { return boxesOverlap(with_gap, other); });
        hits += std::ranges::count_if(lines, [&](const LabelLine& other) { return lineInBox(other, box); });
        double past = 0;  // signs close to the point that the line passes: not to be helped in a crowd
        for (const PlotBox& sign : taken) {
          if (!far || boxInside({wish.point.x, wish.point.y, 0, 0}, sign) || !lineInBox(line, sign)) continue;
          if (inCrowdOf(wish.point, sign)) ++past;
          else ++hits;
        }
        if (far) hits += std::ranges::count_if(labels, [&](const PlotBox& other) { return lineInBox(line, other); });
        const double cost = 1000.0 * static_cast<double>(hits) + (holdsAny(with_gap, rather_not) ? 5.5 : 0) + kPastSign * past + ring;
        if (cost < least) {
          least = cost;
          free = hits == 0;
          best = {box, far};
        }
      }
    if (!free && !wish.must) {
      places.push_back({{}, false, true});
      continue;
    }
    if (least >= 1e9)  // no room at all: over its point, moved into the room
      best.box = {std::max(room.x, std::min(wish.point.x, room.x + room.width - wish.width)), std::max(room.y, std::min(wish.point.y, room.y + room.height - wish.height)), wish.width, wish.height};
    full.push_back(best.box);
    labels.push_back(best.box);
    if (best.far) lines.push_back({wish.point, labelTie(best.box, wish.point)});
    places.push_back(best);
  }
  return places;
}

}  // namespace huewright
