#include "photo/geometry.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "base/text.hpp"

namespace huewright {
namespace {

constexpr double kFarthestCoordinate = 1'000'000'000.0;  // keeps whole-pixel arithmetic inside an int

/// z of (b − a) × (c − b): positive for a clockwise turn, y pointing down.
double turn(Point a, Point b, Point c) { return (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x); }

int wholePixel(double v) { return static_cast<int>(std::clamp(v, -kFarthestCoordinate, kFarthestCoordinate)); }

/// Finite numbers between commas; empty when the text is anything else.
std::vector<double> readNumbers(std::string_view text) {
  std::vector<double> numbers;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t comma = std::min(text.find(',', at), text.size());
    const auto number = numberOf(text.substr(at, comma - at));
    if (!number) return {};
    numbers.push_back(*number);
    at = comma + 1;
  }
  return numbers;
}

}  // namespace

Quad toQuad(const Rect& rect) {
  const double left = rect.x, top = rect.y, right = left + rect.width, bottom = top + rect.height;
  return {{{{left, top}, {right, top}, {right, bottom}, {left, bottom}}}};
}

Rect boundingBox(const Quad& quad) {
  double left = quad.corners[0].x, right = left, top = quad.corners[0].y, bottom = top;
  for (const Point& p : quad.corners) {
    left = std::min(left, p.x);
    right = std::max(right, p.x);
    top = std::min(top, p.y);
    bottom = std::max(bottom, p.y);
  }
  const int x = wholePixel(std::floor(left)), y = wholePixel(std::floor(top));
  return {x, y, wholePixel(std::ceil(right)) - x, wholePixel(std::ceil(bottom)) - y};
}

Rect insidePicture(const Rect& rect, Size size) {
  const int left = std::clamp(rect.x, 0, size.width - 1), top = std::clamp(rect.y, 0, size.height - 1);
  const int right = std::clamp(rect.x + rect.width, left + 1, size.width), bottom = std::clamp(rect.y + rect.height, top + 1, size.height);
  return {left, top, right - left, bottom - top};
}

double signedArea(const Quad& quad) {
  // Corners are taken relative to the first, so that a small quad far out loses no digits.
  const auto& c = quad.corners;
  double twice = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const Point a{c[i].x - c[0].x, c[i].y - c[0].y};
    const Point b{c[(i + 1) % 4].x - c[0].x, c[(i + 1) % 4].y - c[0].y};
    twice += a.x * b.y - b.x * a.y;
  }
  return 0.5 * twice;
}

Point centre(const Quad& quad) {
  Point sum;
  for (const Point& p : quad.corners) sum = {sum.x + p.x, sum.y + p.y};
  return {sum.x / 4, sum.y / 4};
}

bool isConvex(const Quad& quad) {
  const auto& c = quad.corners;
  int right = 0, left = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const double t = turn(c[i], c[(i + 1) % 4], c[(i + 2) % 4]);
    right += t > 0;
    left += t < 0;
  }
  return right == 4 || left == 4;
}

bool contains(const Quad& quad, Point point) {
  const auto& c = quad.corners;
  for (std::size_t i = 0; i < 4; ++i)
    if (turn(c[i], c[(i + 1) % 4], point) < 0) return false;
  return true;
}

bool overlap(const Quad& a, const Quad& b) {
  for (const Quad* edges : {&a, &b}) {
    for (std::size_t i = 0; i < 4; ++i) {
      const Point from = edges->corners[i], to = edges->corners[(i + 1) % 4];
      const Point normal{to.y - from.y, from.x - to.x};
      const auto span = [&](const Quad& quad) {
        std::array<double, 4> along{};
        std::transform(quad.corners.begin(), quad.corners.end(), along.begin(),
                       [&](Point p) { return (p.x - from.x) * normal.x + (p.y - from.y) * normal.y; });
        return std::pair{*std::min_element(along.begin(), along.end()), *std::max_element(along.begin(), along.end())};
      };
      const auto [a_low, a_high] = span(a);
      const auto [b_low, b_high] = span(b);
      if (a_high <= b_low || b_high <= a_low) return false;
    }
  }
  return true;
}

Quad inset(const Quad& quad, double fraction) {
  const Point middle = centre(quad);
  const double keep = 1.0 - fraction;
  Quad smaller;
  std::transform(quad.corners.begin(), quad.corners.end(), smaller.corners.begin(), [&](Point p) {
    return Point{middle.x + keep * (p.x - middle.x), middle.y + keep * (p.y - middle.y)};
  });
  return smaller;
}

Quad clockwise(const Quad& quad) {
  if (signedArea(quad) >= 0) return quad;
  const auto& c = quad.corners;
  return {{{c[0], c[3], c[2], c[1]}}};
}

Result<Quad> parseQuad(const std::string& text) {
  const std::vector<double> n = readNumbers(text);
  if (n.size() == 4) {
    if (n[2] <= 0 || n[3] <= 0) return fail(Code::ZeroRegion, text);
    return Quad{{{{n[0], n[1]}, {n[0] + n[2], n[1]}, {n[0] + n[2], n[1] + n[3]}, {n[0], n[1] + n[3]}}}};
  }
  if (n.size() != 8) return fail(Code::BadRegion, text);
  Quad quad;
  for (std::size_t i = 0; i < 4; ++i) quad.corners[i] = {n[2 * i], n[2 * i + 1]};
  // Crossed corners can cancel to an area of zero too; those are left for the caller to name. Here: all on one line.
  const auto& c = quad.corners;
  bool on_a_line = true;
  for (std::size_t i = 0; i < 4; ++i) on_a_line = on_a_line && turn(c[i], c[(i + 1) % 4], c[(i + 2) % 4]) == 0;
  if (on_a_line) return fail(Code::ZeroRegion, text);
  return quad;
}

}  // namespace huewright
