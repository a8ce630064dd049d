#include "render/canvas.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "render/strips.hpp"
#include "render/texture.hpp"

namespace huewright::render {
namespace {

// Fields over a thing's box: relative film (mean exactly 1 inside) and flake brightness (mean exactly 1 inside).
struct Texture {
  std::vector<float> film, flake;
};

void centreInside(std::vector<float>& field, const Box& box, const Edges& edges, double spread) {
  double sum = 0, squares = 0, count = 0;
  std::size_t i = 0;
  for (int y = box.top; y < box.bottom; ++y)
    for (int x = box.left; x < box.right; ++x, ++i)
      if (edges.inside(x + 0.5, y + 0.5) >= 0) {
        sum += field[i];
        squares += static_cast<double>(field[i]) * field[i];
        count += 1;
      }
  if (count < 2) return;
  const double mean = sum / count, sd = std::sqrt(std::max(squares / count - mean * mean, 1e-12));
  for (float& v : field) v = static_cast<float>(1 + spread * std::clamp((v - mean) / sd, -4.0, 4.0));
}

Texture textureOf(const Thing& thing, const Box& box, const Edges& edges, Random& random) {
  Texture t;
  if (thing.coatings.front().raw.size() > 1 && thing.finish.mottle > 0) {
    t.film = smoothField(box.width(), box.height(), thing.finish.mottle_px, thing.finish.mottle_px, random);
    const double fine = std::max(thing.finish.mottle_px / 2.7, 1.0);
    const auto detail = smoothField(box.width(), box.height(), fine, fine, random);
    for (std::size_t i = 0; i < detail.size(); ++i) t.film[i] += 0.45f * detail[i];
    centreInside(t.film, box, edges, thing.finish.mottle);
  }
  if (thing.sparkle > 0) {
    t.flake = whiteField(box.width(), box.height(), random);
    const auto clumps = smoothField(box.width(), box.height(), 2.3, 2.3, random);
    for (std::size_t i = 0; i < clumps.size(); ++i) {
      const float z = 0.75f * t.flake[i] + 0.6f * clumps[i];
      t.flake[i] = z > 1.9f ? z + 1.6f * (z - 1.9f) : z;   // a few flakes face the light squarely
    }
    centreInside(t.flake, box, edges, thing.sparkle);
  }
  return t;
}

Raw mixed(const Raw& a, const Raw& b, float t) {
  Raw m;
  for (std::size_t c = 0; c < 3; ++c) {
    m.first[c] = a.first[c] + t * (b.first[c] - a.first[c]);
    m.second[c] = a.second[c] + t * (b.second[c] - a.second[c]);
  }
  return m;
}

}  // namespace

Eye::Eye(const Shop& shop) : first_(shop.camera.sensitivity, illuminant(shop.lamp.light)) {
  if (!shop.lamp.second_light.empty()) second_.emplace(shop.camera.sensitivity, illuminant(shop.lamp.second_light));
}

Raw Eye::see(const Spectrum& reflectance) const {
  Raw raw;
  const Vec3 a = first_.raw(reflectance), b = second_ ? second_->raw(reflectance) : Vec3{};
  for (std::size_t c = 0; c < 3; ++c) {
    raw.first[c] = static_cast<float>(a[c]);
    raw.second[c] = static_cast<float>(b[c]);
  }
  return raw;
}

double filmReach(const Finish& finish) { return 4 * finish.mottle + 0.5 * std::abs(finish.film_slope); }

Canvas::Canvas(const SceneSpec& scene, const Eye& eye, const Perspective& perspective, const LightField& light)
    : size_(scene.size),
      white_(eye.see(flat(1))),
      eye_(eye),
      perspective_(perspective),
      light_(light),
      toward_x_(std::cos(scene.shop.lamp.direction_deg * std::numbers::pi / 180)),
      toward_y_(std::sin(scene.shop.lamp.direction_deg * std::numbers::pi / 180)),
      rgb_(static_cast<std::size_t>(scene.size.width) * scene.size.height * 3) {}

double addGlare(double sum, const std::vector<Glare>& glare, double u, double v, double shape) {
  for (const Glare& g : glare) {
    const double turn = g.turn_deg * std::numbers::pi / 180;
    const double du = u - g.x, dv = (v - g.y) * shape;
    const double gu = (std::cos(turn) * du + std::sin(turn) * dv) / g.radius_x;
    const double gv = (std::cos(turn) * dv - std::sin(turn) * du) / (shape * g.radius_y);
    const double rho = std::pow(std::pow(std::abs(gu), g.power) + std::pow(std::abs(gv), g.power), 1 / g.power);
    if (rho < 1) sum += g.strength * smooth((1 - rho) / std::max(g.edge, 0.01));
  }
  return sum;
}

double Canvas::mirrored(const Thing& thing, double x, double y) const {
  const Place place = thing.glare_over.value_or(thing.place);
  const Point p = perspective_.toPlane({x, y});
  const double angle = place.turn_deg * std::numbers::pi / 180, c = std::cos(angle), s = std::sin(angle);
  const double dx = p.x - place.x - 0.5 * place.width, dy = p.y - place.y - 0.5 * place.height;
  const double u = (c * dx + s * dy) / place.width + 0.5, v = (-s * dx + c * dy) / place.height + 0.5;
  return addGlare(thing.veil, thing.finish.glare, u, v, place.height / place.width);
}

Painted Canvas::paint(const Thing& thing, Random random) {
  const Edges edges(thing.quad);
  const Box box = boxOf(thing.quad, size_, 1);
  Painted painted;
  painted.strips.resize(thing.coatings.size());
  if (box.empty()) return painted;
  const Texture texture = textureOf(thing, box, edges, random);
  const Strips strips(thing, perspective_, random);
  const Coating& any = thing.coatings.front();
  const bool has_film = any.raw.size() > 1, has_glare = !thing.finish.glare.empty(), stepped = thing.coatings.size() > 1;
  const double steps = static_cast<double>(any.raw.size() - 1);
  const double to_index = has_film ? steps / (any.film_high - any.film_low) : 0;
  // Turned upside down, its film turns with it; the light does not.
  const bool upside_down = std::cos(thing.place.turn_deg * std::numbers::pi / 180) < 0;
  const double bevel = thing.finish.bevel_px, slope = (upside_down ? -1 : 1) * thing.finish.film_slope / box.width();
  const auto turns = static_cast<std::size_t>(((std::lround(thing.place.turn_deg / 90) % 4) + 4) % 4);
  const std::size_t lit_top = (4 - turns) % 4, lit_left = (7 - turns) % 4;
  const double middle_x = 0.5 * size_.width, middle_y = 0.5 * size_.height;
  std::vector<Vec3> sums(thing.coatings.size());
  std::vector<double> counts(thing.coatings.size());
  Vec3 sum{};
  double count = 0;
  std::size_t i = 0;
  for (int row = box.top; row < box.bottom; ++row)
    for (int column = box.left; column < box.right; ++column, ++i) {
      const double x = column + 0.5, y = row + 0.5, inside = edges.inside(x, y);
      if (inside <= -0.5) continue;
      std::size_t low = 0, high = 0;
      double part = 0;
      if (has_film) {
        const double local = texture.film.empty() ? 1.0 : static_cast<double>(texture.film[i]);
        const double film = local + slope * (x - 0.5 * (box.left + box.right));
        const double index = std::clamp((film - any.film_low) * to_index, 0.0, steps);
        low = std::min(static_cast<std::size_t>(index), any.raw.size() - 2);
        high = low + 1;
        part = index - static_cast<double>(low);
      }
      const StripAt strip = stepped ? strips.at(x, y) : StripAt{};
      const Coating& coating = thing.coatings[strip.first];
      if (inside >= 0) {
        const auto add = [&](Vec3& to, double& pixels) {
          to = to + (1 - part) * toVec(coating.xyz[low]) + part * toVec(coating.xyz[high]);
          pixels += 1;
        };
        add(sum, count);
        if (stepped && strip.clear) add(sums[strip.first], counts[strip.first]);
      }
      double gain = texture.flake.empty() ? 1.0 : static_cast<double>(texture.flake[i]);
      gain *= 1 - thing.angle * ((x - middle_x) * toward_x_ + (y - middle_y) * toward_y_) / size_.width;
      if (bevel > 0 && inside < bevel) {
        const bool lit = std::min(edges.distance(lit_top, x, y), edges.distance(lit_left, x, y)) <= inside;
        gain *= 1 + (lit ? 0.35 : -0.45) * (1 - std::max(inside, 0.0) / bevel);
      }
      if (stepped) gain *= strip.gain;
      const Level level = light_.at(x, y);
      const double mirror = has_glare ? mirrored(thing, x, y) : thing.veil;
      const auto first = static_cast<float>(gain * level.first), second = static_cast<float>(gain * level.second);
      const double both = std::max(level.first + level.second, 1e-6);
      const auto mirror_first = static_cast<float>(mirror * level.first / both);
      const auto mirror_second = static_cast<float>(mirror * level.second / both);
      const auto t = static_cast<float>(part), cover = static_cast<float>(std::min(inside + 0.5, 1.0));
      Raw body = mixed(coating.raw[low], coating.raw[high], t);
      if (strip.part > 0) {
        const Coating& next = thing.coatings[strip.first + 1];
        body = mixed(body, mixed(next.raw[low], next.raw[high], t), strip.part);
      }
      float* px = at(column, row);
      for (std::size_t c = 0; c < 3; ++c) {
        const float by_first = first * body.first[c] + mirror_first * white_.first[c];
        const float by_second = second * body.second[c] + mirror_second * white_.second[c];
        px[c] += cover * (by_first + by_second - px[c]);
      }
    }
  sprinkleDust(thing, random);
  const auto mean = [](const Vec3& total, double of) {
    const Vec3 m = (1 / std::max(of, 1.0)) * total;
    return Xyz<D50>{m[0], m[1], m[2]};
  };
  painted.mean = mean(sum, count);
  for (std::size_t k = 0; k < sums.size(); ++k) painted.strips[k] = stepped ? mean(sums[k], counts[k]) : painted.mean;
  return painted;
}

void Canvas::sprinkleDust(const Thing& thing, Random& random) {
  const Edges edges(thing.quad);
  const Box box = boxOf(thing.quad, size_, 0);
  for (int n = 0; n < thing.finish.dust; ++n) {
    const double x = random.uniform(box.left, box.right), y = random.uniform(box.top, box.bottom);
    const double radius = random.uniform(0.5, 1.6), shade = random.chance(0.7) ? 0.45 : 0.03;
    if (edges.inside(x, y) < radius + 1) continue;
    const Level level = light_.at(x, y);
    for (int row = static_cast<int>(y - radius - 1); row <= static_cast<int>(y + radius + 1); ++row)
      for (int column = static_cast<int>(x - radius - 1); column <= static_cast<int>(x + radius + 1); ++column) {
        if (row < 0 || column < 0 || row >= size_.height || column >= size_.width) continue;
        const auto cover = static_cast<float>(0.8 * std::clamp(radius + 0.5 - std::hypot(column + 0.5 - x, row + 0.5 - y), 0.0, 1.0));
        float* px = at(column, row);
        for (std::size_t c = 0; c < 3; ++c) {
          const double white = level.first * static_cast<double>(white_.first[c]) + level.second * static_cast<double>(white_.second[c]);
          px[c] += cover * (static_cast<float>(shade * white) - px[c]);
        }
      }
  }
}

}  // namespace huewright::render
