#include "scene/edge_corners.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace huewright {
namespace {

constexpr double kEnds = 0.12;             // share of an edge next to each corner that is left out
constexpr double kCornerStep = 0.25;       // pixels, across the edge
constexpr double kFaintestCorner = 0.01;   // difference in light, of full white
constexpr double kCornerStray = 3;         // robust standard deviations
constexpr double kLeastCornerStray = 0.1;  // pixels; nearer points are never left out
constexpr double kLeastKept = 0.6;         // share of the points
constexpr double kFarthestMove = 3;        // pixels that a corner may move

/// a·x + b·y = c with a² + b² = 1.
struct Line {
  double a = 0, b = 0, c = 0;
};

/// Where, along the way out from `from`, the light is half-way between dark and light. Empty when that cannot be told.
std::optional<double> halfWay(const GreyView& picture, Point from, Point out, double reach) {
  std::vector<double> profile;
  const int steps = static_cast<int>(std::ceil(reach / kCornerStep));
  for (int i = -steps; i <= steps; ++i) {
    const auto light = lightAt(picture, {from.x + out.x * i * kCornerStep, from.y + out.y * i * kCornerStep});
    if (!light) return std::nullopt;
    profile.push_back(*light);
  }
  // The ends, a sixth of the way each, are dark and light.
  const std::size_t end = std::max<std::size_t>(1, profile.size() / 6);
  double dark = 0, light = 0;
  for (std::size_t i = 0; i < end; ++i) {
    dark += profile[i] / static_cast<double>(end);
    light += profile[profile.size() - 1 - i] / static_cast<double>(end);
  }
  if (light - dark < kFaintestCorner) return std::nullopt;
  const double middle = 0.5 * (dark + light);
  std::optional<double> nearest;
  for (std::size_t i = 0; i + 1 < profile.size(); ++i) {
    if (!(profile[i] < middle && profile[i + 1] >= middle)) continue;
    const double at = (static_cast<double>(i) + (middle - profile[i]) / (profile[i + 1] - profile[i]) - steps) * kCornerStep;
    if (!nearest || std::abs(at) < std::abs(*nearest)) nearest = at;
  }
  return nearest;
}

/// Total least squares, strays left out.
std::optional<Line> lineThrough(std::vector<Point> points) {
  const std::size_t given = points.size();
  Line line;
  for (int round = 0; round < 3; ++round) {
    if (points.size() < 5 || static_cast<double>(points.size()) < kLeastKept * static_cast<double>(given)) return std::nullopt;
    Point mean;
    for (const Point& p : points) mean = {mean.x + p.x / static_cast<double>(points.size()), mean.y + p.y / static_cast<double>(points.size())};
    double xx = 0, xy = 0, yy = 0;
    for (const Point& p : points) {
      xx += (p.x - mean.x) * (p.x - mean.x);
      xy += (p.x - mean.x) * (p.y - mean.y);
      yy += (p.y - mean.y) * (p.y - mean.y);
    }
    const double along = 0.5 * std::atan2(2 * xy, xx - yy);
    line = {-std::sin(along), std::cos(along), 0};
    line.c = line.a * mean.x + line.b * mean.y;
    std::vector<double> off;
    for (const Point& p : points) off.push_back(std::abs(line.a * p.x + line.b * p.y - line.c));
    std::vector<double> sorted = off;
    std::ranges::nth_element(sorted, sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2));
    const double most = std::max(kLeastCornerStray, kCornerStray * 1.4826 * sorted[sorted.size() / 2]);  // the median of |normal| is 1 / 1.4826 of its sd
    std::vector<Point> kept;
    for (std::size_t i = 0; i < points.size(); ++i)
      if (off[i] <= most) kept.push_back(points[i]);
    if (kept.size() == points.size()) break;
    points = std::move(kept);
  }
  return line;
}

std::optional<Point> meeting(const Line& p, const Line& q) {
  const double sine = p.a * q.b - q.a * p.b;
  if (std::abs(sine) < 0.1) return std::nullopt;
  return Point{(p.c * q.b - q.c * p.b) / sine, (p.a * q.c - q.a * p.c) / sine};
}

std::optional<Quad> once(const GreyView& picture, const Quad& rough, double reach) {
  const double turn = signedArea(rough) >= 0 ? 1 : -1;
  std::array<Line, 4> lines;
  for (std::size_t i = 0; i < 4; ++i) {
    const Point a = rough.corners[i], b = rough.corners[(i + 1) % 4];
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    if (!(length >= 8)) return std::nullopt;
    const Point out{turn * (b.y - a.y) / length, -turn * (b.x - a.x) / length};
    const int count = std::clamp(static_cast<int>(length), 8, 60);
    std::vector<Point> points;
    for (int k = 0; k < count; ++k) {
      const double t = kEnds + (1 - 2 * kEnds) * (k + 0.5) / count;
      const Point from{a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
      if (const auto at = halfWay(picture, from, out, reach)) points.push_back({from.x + *at * out.x, from.y + *at * out.y});
    }
    if (points.size() * 10 < static_cast<std::size_t>(count) * 7) return std::nullopt;
    const auto line = lineThrough(std::move(points));
    if (!line) return std::nullopt;
    lines[i] = *line;
  }
  Quad better;
  for (std::size_t i = 0; i < 4; ++i) {
    const auto corner = meeting(lines[(i + 3) % 4], lines[i]);
    if (!corner) return std::nullopt;
    better.corners[i] = *corner;
  }
  return better;
}

}  // namespace

std::optional<Quad> cornersByEdges(const GreyView& picture, const Quad& rough, double border) {
  // Half of the border at first, so that a rough corner may be off; the second time the edge stands in the middle.
  const double reach = std::clamp(0.55 * border, 1.5, 7.0);
  auto quad = once(picture, rough, reach);
  if (quad) quad = once(picture, *quad, reach);
  if (!quad) return std::nullopt;
  for (std::size_t i = 0; i < 4; ++i)
    if (!(std::hypot(quad->corners[i].x - rough.corners[i].x, quad->corners[i].y - rough.corners[i].y) <= kFarthestMove)) return std::nullopt;
  return quad;
}

}  // namespace huewright
