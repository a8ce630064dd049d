#include "render2/things.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace huewright::render2 {
namespace {

constexpr int kNodes = 13;
constexpr int kLattice = 48;   // places each way over which a film's mean is taken

}  // namespace

Eyes::Eyes(const Spec& spec, const LightField& field) : light(field), sensor(spec.camera.letter, field.lampLight()) {}

Rectangle::Rectangle(const Place& place)
    : place_(place), cos_(std::cos(place.turn_deg * std::numbers::pi / 180)), sin_(std::sin(place.turn_deg * std::numbers::pi / 180)) {}

Point Rectangle::inside(Point p) const {
  const double dx = p.x - place_.middle.x, dy = p.y - place_.middle.y;
  return {(cos_ * dx + sin_ * dy) / place_.width, (cos_ * dy - sin_ * dx) / place_.height};
}

Point Rectangle::outward(double u, double v) const {
  const double dx = u * place_.width, dy = v * place_.height;
  return {place_.middle.x + cos_ * dx - sin_ * dy, place_.middle.y + sin_ * dx + cos_ * dy};
}

double Rectangle::depth(Point p) const {
  const Point at = inside(p);
  return std::min((0.5 - std::abs(at.x)) * place_.width, (0.5 - std::abs(at.y)) * place_.height);
}

Quad Rectangle::quad(const View& view) const {
  return {{view.toPicture(outward(-0.5, -0.5)), view.toPicture(outward(0.5, -0.5)), view.toPicture(outward(0.5, 0.5)),
           view.toPicture(outward(-0.5, 0.5))}};
}

Film::Film(const Place& place, const Finish& finish, Random& random)
    : rectangle_(place), finish_(finish), waves_(0.8, 6, 18, random),
      stripes_(random.uniform(3, 6), random.chance(0.5) ? random.uniform(-8, 8) : random.uniform(82, 98), random) {
  double sum = 0, squares = 0;
  for (int i = 0; i < kLattice * kLattice; ++i) {
    const int column = i % kLattice, row = i / kLattice;
    const double v = raw(rectangle_.outward((column + 0.5) / kLattice - 0.5, (row + 0.5) / kLattice - 0.5));
    sum += v;
    squares += v * v;
  }
  constexpr double kCount = kLattice * kLattice;
  mean_ = sum / kCount;
  scale_ = finish.mottle / std::sqrt(std::max(squares / kCount - mean_ * mean_, 1e-12));
}

double Film::raw(Point p) const { return std::sqrt(1 - finish_.stripes) * waves_.at(p) + std::sqrt(finish_.stripes) * stripes_.at(p); }

double Film::at(Point p) const {
  const Point in = rectangle_.inside(p);
  return 1 + scale_ * (raw(p) - mean_) + finish_.slope_x * in.x + finish_.slope_y * in.y;
}

Skin::Skin(const Paint& paint, double reach, const Eyes& eyes) : low_(1 - reach), step_(2 * reach / (kNodes - 1)) {
  const GroundBody& ground = body(paint.ground);
  const Geometry standard = standardGeometry();
  const double everywhere = flakeGainDiffuse(ground);
  for (int i = 0; i < kNodes; ++i) {
    const double film = low_ + step_ * i;
    const Spectrum dull = reflectance(paint, film, 0, standard), bright = reflectance(paint, film, 1, standard);
    const Vec3 at_dull = eyes.byLamp(dull);
    nodes_.push_back({at_dull, eyes.byLamp(bright) - at_dull, eyes.byRoom(reflectance(paint, film, everywhere, standard)), xyzD50(bright)});
  }
  if (ground.sparkle > 0) flakes_ = &ground;
}

Skin::Skin(const Spectrum& body, const Eyes& eyes) { nodes_.push_back({eyes.byLamp(body), {}, eyes.byRoom(body), xyzD50(body)}); }

std::size_t Skin::below(double film, double& part) const {
  part = 0;
  if (nodes_.size() == 1) return 0;
  const double at = std::clamp((film - low_) / step_, 0.0, static_cast<double>(nodes_.size() - 1));
  const std::size_t i = std::min(static_cast<std::size_t>(at), nodes_.size() - 2);
  part = at - static_cast<double>(i);
  return i;
}

Vec3 Skin::raw(double film, double flake_gain, double lamp, double room) const {
  double part = 0;
  const std::size_t i = below(film, part);
  const auto of = [&](const Node& n) { return lamp * (n.lamp_dull + flake_gain * n.lamp_flakes) + room * n.room; };
  return part > 0 ? (1 - part) * of(nodes_[i]) + part * of(nodes_[i + 1]) : of(nodes_[i]);
}

Xyz<D50> Skin::xyz(double film) const {
  double part = 0;
  const std::size_t i = below(film, part);
  const Vec3 at = part > 0 ? (1 - part) * toVec(nodes_[i].xyz) + part * toVec(nodes_[i + 1].xyz) : toVec(nodes_[i].xyz);
  return {at[0], at[1], at[2]};
}

}  // namespace huewright::render2
