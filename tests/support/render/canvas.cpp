#include "render/canvas.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "render/texture.hpp"

namespace huewright::render {
namespace {

double smooth(double t) {
  t = std::clamp(t, 0.0, 1.0);
  return t * t * (3 - 2 * t);
}

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
  if (thing.raw.size() > 1 && thing.finish.mottle > 0) {
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

double Canvas::mirrored(const Thing& thing, double x, double y) const {
  double sum = thing.veil;
  if (thing.finish.glare.empty()) return sum;
  const Point p = perspective_.toPlane({x, y});
  const double angle = thing.place.turn_deg * std::numbers::pi / 180, c = std::cos(angle), s = std::sin(angle);
  const double dx = p.x - thing.place.x - 0.5 * thing.place.width, dy = p.y - thing.place.y - 0.5 * thing.place.height;
  const double u = (c * dx + s * dy) / thing.place.width + 0.5, v = (-s * dx + c * dy) / thing.place.height + 0.5;
  for (const Glare& g : thing.finish.glare) {
    const double turn = g.turn_deg * std::numbers::pi / 180, shape = thing.place.height / thing.place.width;
    const double du = u - g.x, dv = (v - g.y) * shape;
    const double gu = (std::cos(turn) * du + std::sin(turn) * dv) / g.radius_x;
    const double gv = (std::cos(turn) * dv - std::sin(turn) * du) / (shape * g.radius_y);
    const double rho = std::pow(std::pow(std::abs(gu), g.power) + std::pow(std::abs(gv), g.power), 1 / g.power);
    if (rho < 1) sum += g.strength * smooth((1 - rho) / std::max(g.edge, 0.01));
  }
  return sum;
}

Xyz<D50> Canvas::paint(const Thing& thing, Random random) {
  const Edges edges(thing.quad);
  const Box box = boxOf(thing.quad, size_, 1);
  if (box.empty()) return {};
  const Texture texture = textureOf(thing, box, edges, random);
  const bool has_film = thing.raw.size() > 1, has_glare = !thing.finish.glare.empty();
  const double steps = static_cast<double>(thing.raw.size() - 1);
  const double to_index = has_film ? steps / (thing.film_high - thing.film_low) : 0;
  const double bevel = thing.finish.bevel_px, slope = thing.finish.film_slope / box.width();
  const double middle_x = 0.5 * size_.width, middle_y = 0.5 * size_.height;
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
        const double index = std::clamp((film - thing.film_low) * to_index, 0.0, steps);
        low = std::min(static_cast<std::size_t>(index), thing.raw.size() - 2);
        high = low + 1;
        part = index - static_cast<double>(low);
      }
      if (inside >= 0) {
        sum = sum + (1 - part) * toVec(thing.xyz[low]) + part * toVec(thing.xyz[high]);
        count += 1;
      }
      double gain = texture.flake.empty() ? 1.0 : static_cast<double>(texture.flake[i]);
      gain *= 1 - thing.angle * ((x - middle_x) * toward_x_ + (y - middle_y) * toward_y_) / size_.width;
      if (bevel > 0 && inside < bevel) {
        const bool lit = std::min(edges.distance(0, x, y), edges.distance(3, x, y)) <= inside;
        gain *= 1 + (lit ? 0.35 : -0.45) * (1 - std::max(inside, 0.0) / bevel);
      }
      const Level level = light_.at(x, y);
      const double mirror = has_glare ? mirrored(thing, x, y) : thing.veil;
      const auto first = static_cast<float>(gain * level.first), second = static_cast<float>(gain * level.second);
      const double both = std::max(level.first + level.second, 1e-6);
      const auto mirror_first = static_cast<float>(mirror * level.first / both);
      const auto mirror_second = static_cast<float>(mirror * level.second / both);
      const auto t = static_cast<float>(part), cover = static_cast<float>(std::min(inside + 0.5, 1.0));
      const Raw &a = thing.raw[low], &b = thing.raw[high];
      float* px = at(column, row);
      for (std::size_t c = 0; c < 3; ++c) {
        const float by_first = first * (a.first[c] + t * (b.first[c] - a.first[c])) + mirror_first * white_.first[c];
        const float by_second = second * (a.second[c] + t * (b.second[c] - a.second[c])) + mirror_second * white_.second[c];
        px[c] += cover * (by_first + by_second - px[c]);
      }
    }
  sprinkleDust(thing, random);
  const Vec3 mean = (1 / std::max(count, 1.0)) * sum;
  return {mean[0], mean[1], mean[2]};
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

void Canvas::dropShadow(const Quad& quad) {
  constexpr double kHeight = 7, kSoft = 13, kDark = 0.5, kContact = 4, kContactDark = 0.35;
  const double ox = kHeight * (0.35 + toward_x_), oy = kHeight * (0.35 + toward_y_);
  const Edges edges(quad);
  const Box box = boxOf(quad, size_, kSoft + std::abs(ox) + std::abs(oy));
  // Distance outside a corner is rounder than the nearest edge's: combine the two outermost edges.
  const auto outside = [&](double x, double y) {
    const double across = std::max(-std::min(edges.distance(1, x, y), edges.distance(3, x, y)), 0.0);
    const double along = std::max(-std::min(edges.distance(0, x, y), edges.distance(2, x, y)), 0.0);
    return across > 0 && along > 0 ? std::hypot(across, along) : -edges.inside(x, y);
  };
  for (int row = box.top; row < box.bottom; ++row)
    for (int column = box.left; column < box.right; ++column) {
      const double x = column + 0.5, y = row + 0.5;
      if (edges.inside(x, y) > 1) continue;
      const double cast = kDark * smooth(0.5 - outside(x - ox, y - oy) / (2 * kSoft));
      const double contact = kContactDark * smooth(1 - outside(x, y) / kContact);
      const auto left = static_cast<float>((1 - cast) * (1 - contact));
      float* px = at(column, row);
      for (std::size_t c = 0; c < 3; ++c) px[c] *= left;
    }
}

void Canvas::blur(double sigma) {
  if (sigma <= 0) return;
  const int reach = std::max(1, static_cast<int>(std::ceil(2.6 * sigma)));
  std::vector<float> kernel;
  double total = 0;
  for (int k = -reach; k <= reach; ++k) total += std::exp(-0.5 * k * k / (sigma * sigma));
  for (int k = -reach; k <= reach; ++k) kernel.push_back(static_cast<float>(std::exp(-0.5 * k * k / (sigma * sigma)) / total));
  const auto row_size = static_cast<std::size_t>(size_.width) * 3, rows = static_cast<std::size_t>(size_.height);
  const auto pad = static_cast<std::size_t>(reach) * 3;
  std::vector<float> padded(row_size + 2 * pad), across(rgb_.size());
  for (std::size_t y = 0; y < rows; ++y) {
    const float* in = rgb_.data() + y * row_size;
    std::copy_n(in, row_size, padded.begin() + static_cast<std::ptrdiff_t>(pad));
    for (std::size_t i = 0; i < pad; ++i) {
      padded[i] = in[i % 3];
      padded[pad + row_size + i] = in[row_size - 3 + i % 3];
    }
    float* out = across.data() + y * row_size;
    for (std::size_t k = 0; k < kernel.size(); ++k) {
      const float weight = kernel[k];
      const float* from = padded.data() + 3 * k;
      for (std::size_t i = 0; i < row_size; ++i) out[i] += weight * from[i];
    }
  }
  for (std::size_t y = 0; y < rows; ++y) {
    float* out = rgb_.data() + y * row_size;
    std::fill_n(out, row_size, 0.0f);
    for (int k = -reach; k <= reach; ++k) {
      const int source = std::clamp(static_cast<int>(y) + k, 0, size_.height - 1);
      const float* from = across.data() + static_cast<std::size_t>(source) * row_size;
      const float weight = kernel[static_cast<std::size_t>(k + reach)];
      for (std::size_t i = 0; i < row_size; ++i) out[i] += weight * from[i];
    }
  }
}

}  // namespace huewright::render
