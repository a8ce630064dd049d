#include "render/strips.hpp"

#include <cmath>
#include <numbers>

#include "render/texture.hpp"

namespace huewright::render {
namespace {

bool isUpright(const Place& place) { return place.height >= place.width; }

}  // namespace

Strips::Strips(const Thing& thing, const Perspective& perspective, Random& random)
    : perspective_(perspective),
      tape_(thing.tape),
      cx_(thing.place.x + 0.5 * thing.place.width),
      cy_(thing.place.y + 0.5 * thing.place.height),
      cos_(std::cos((thing.place.turn_deg + (isUpright(thing.place) ? 90 : 0)) * std::numbers::pi / 180)),
      sin_(std::sin((thing.place.turn_deg + (isUpright(thing.place) ? 90 : 0)) * std::numbers::pi / 180)),
      half_(0.5 * std::max(thing.place.width, thing.place.height)) {
  for (const double b : thing.boundaries) {
    Edge edge{2 * half_ * b, {}};
    constexpr int kWaves = 5;
    if (tape_.wobble_px > 0)
      for (int i = 0; i < kWaves; ++i)
        edge.waves.push_back({random.uniform(8, 60), random.uniform(0, 2 * std::numbers::pi), tape_.wobble_px * std::sqrt(2.0 / kWaves)});
    edges_.push_back(std::move(edge));
  }
}

StripAt Strips::at(double x, double y) const {
  const Point p = perspective_.toPlane({x, y});
  const double along = cos_ * (p.x - cx_) + sin_ * (p.y - cy_) + half_, across = cos_ * (p.y - cy_) - sin_ * (p.x - cx_);
  StripAt strip;
  for (std::size_t k = 0; k < edges_.size(); ++k) {
    double d = along - edges_[k].at;
    for (const Wave& w : edges_[k].waves) d -= w.height * std::sin(2 * std::numbers::pi * across / w.length + w.phase);
    if (d >= 0.5) strip.first = k + 1;
    else if (d > -0.5) strip.part = static_cast<float>(d + 0.5);
    const double half = 0.5 * tape_.width_px;
    if (std::abs(d) < std::max(half, 0.5)) strip.clear = false;
    if (std::abs(d) < half) strip.gain *= 1 + tape_.ridge * smooth(2 * (1 - std::abs(d) / half));
  }
  return strip;
}

Quad stripQuad(const Thing& thing, const Perspective& perspective, std::size_t strip) {
  const double from = strip == 0 ? 0 : thing.boundaries[strip - 1], to = strip < thing.boundaries.size() ? thing.boundaries[strip] : 1;
  const Quad whole = cornersOf(thing.place);
  const auto between = [&](std::size_t a, std::size_t b, double t) {
    const Point p = whole.corners[a], q = whole.corners[b];
    return Point{p.x + t * (q.x - p.x), p.y + t * (q.y - p.y)};
  };
  Quad part;
  if (isUpright(thing.place)) part = {{between(0, 3, from), between(1, 2, from), between(1, 2, to), between(0, 3, to)}};
  else part = {{between(0, 1, from), between(0, 1, to), between(3, 2, to), between(3, 2, from)}};
  return toPicture(perspective, part);
}

}  // namespace huewright::render
