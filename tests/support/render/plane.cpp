#include "render/plane.hpp"

#include <cmath>
#include <numbers>

namespace huewright::render {
namespace {

Point apply(const Mat3& m, Point p) {
  const Vec3 v = m * Vec3{p.x, p.y, 1};
  return {v[0] / v[2], v[1] / v[2]};
}

}  // namespace

Perspective::Perspective(const View& view, Size size) : forward_{}, backward_{} {
  constexpr double kDegree = std::numbers::pi / 180;
  const double cr = std::cos(view.roll_deg * kDegree), sr = std::sin(view.roll_deg * kDegree);
  const double ct = std::cos(view.tilt_deg * kDegree), st = std::sin(view.tilt_deg * kDegree);
  const double cu = std::cos(view.turn_deg * kDegree), su = std::sin(view.turn_deg * kDegree);
  const Mat3 roll{{{{cr, -sr, 0}, {sr, cr, 0}, {0, 0, 1}}}};
  const Mat3 tilt{{{{1, 0, 0}, {0, ct, st}, {0, -st, ct}}}};
  const Mat3 turn{{{{cu, 0, -su}, {0, 1, 0}, {su, 0, cu}}}};
  const Mat3 turned = turn * tilt * roll * Mat3::diagonal({view.zoom, view.zoom, 1});
  const double far = 1.5 * std::max(size.width, size.height), cx = 0.5 * size.width, cy = 0.5 * size.height;
  const Mat3 lens{{{{far, 0, 0}, {0, far, 0}, {0, 0, 1}}}};
  Mat3 flat_view = turned;   // the plane has z = 0, so its third column is free for the distance
  flat_view(0, 2) = flat_view(1, 2) = 0;
  flat_view(2, 2) = far;
  const Mat3 from_centre{{{{1, 0, -cx}, {0, 1, -cy}, {0, 0, 1}}}}, to_centre{{{{1, 0, cx}, {0, 1, cy}, {0, 0, 1}}}};
  forward_ = to_centre * lens * flat_view * from_centre;
  backward_ = inverse(forward_);
}

Point Perspective::toPicture(Point plane) const { return apply(forward_, plane); }
Point Perspective::toPlane(Point picture) const { return apply(backward_, picture); }

Edges::Edges(const Quad& quad) : a_{}, b_{}, c_{} {
  for (std::size_t i = 0; i < 4; ++i) {
    const Point p = quad.corners[i], q = quad.corners[(i + 1) % 4];
    const double dx = q.x - p.x, dy = q.y - p.y, length = std::hypot(dx, dy);
    a_[i] = -dy / length;
    b_[i] = dx / length;
    c_[i] = -(a_[i] * p.x + b_[i] * p.y);
  }
}

Quad cornersOf(const Place& place) {
  const double cx = place.x + 0.5 * place.width, cy = place.y + 0.5 * place.height;
  const double angle = place.turn_deg * std::numbers::pi / 180, c = std::cos(angle), s = std::sin(angle);
  Quad quad;
  constexpr double kX[] = {-0.5, 0.5, 0.5, -0.5}, kY[] = {-0.5, -0.5, 0.5, 0.5};
  for (std::size_t i = 0; i < 4; ++i) {
    const double x = kX[i] * place.width, y = kY[i] * place.height;
    quad.corners[i] = {cx + c * x - s * y, cy + s * x + c * y};
  }
  return quad;
}

Quad toPicture(const Perspective& perspective, const Quad& plane) {
  Quad quad;
  for (std::size_t i = 0; i < 4; ++i) quad.corners[i] = perspective.toPicture(plane.corners[i]);
  return quad;
}

Box boxOf(const Quad& quad, Size size, double margin) {
  double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
  for (const Point p : quad.corners) {
    left = std::min(left, p.x);
    right = std::max(right, p.x);
    top = std::min(top, p.y);
    bottom = std::max(bottom, p.y);
  }
  const auto whole = [](double v, int most) { return static_cast<int>(std::clamp(v, 0.0, static_cast<double>(most))); };
  return {whole(std::floor(left - margin), size.width), whole(std::floor(top - margin), size.height),
          whole(std::ceil(right + margin), size.width), whole(std::ceil(bottom + margin), size.height)};
}

void arrange(SceneSpec& scene) {
  const double w = scene.size.width, h = scene.size.height;
  const bool greys_at_ends = scene.greys.size() == 2;
  const double top = greys_at_ends ? 0.18 * h : 0.10 * h, tall = greys_at_ends ? 0.62 * h : 0.56 * h, gap = 0.035 * w;
  const double patch = 0.17 * h;
  const double left = greys_at_ends ? 0.07 * w + patch + gap : 0.09 * w;
  const double count = static_cast<double>(scene.panels.size()) + (scene.has_card ? 1 : 0);
  const double wide = (w - 2 * left - (count - 1) * gap) / std::max(count, 1.0);
  double x = left;
  const auto put = [&](Place& place) {
    if (place.width <= 0) place = {x, top, wide, tall, 0};
    x += wide + gap;
  };
  for (PanelSpec& panel : scene.panels) put(panel.place);
  if (scene.has_card) put(scene.card.place);
  const double spread = w / (static_cast<double>(scene.greys.size()) + 1);
  for (std::size_t i = 0; i < scene.greys.size(); ++i) {
    Place& place = scene.greys[i].place;
    if (place.width > 0) continue;
    if (greys_at_ends) place = {i == 0 ? 0.07 * w : w - 0.07 * w - patch, 0.5 * (h - patch), patch, patch, 0};
    else place = {spread * static_cast<double>(i + 1) - 0.5 * patch, 0.74 * h, patch, patch, 0};
  }
}

}  // namespace huewright::render
