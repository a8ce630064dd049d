#include "render2/film.hpp"

#include <array>
#include <cmath>
#include <numbers>

namespace huewright::render2 {
namespace {

constexpr double kIndex = 1.5;
// What the clear's underside throws back of diffuse light, n = 1.5. Source: Saunderson (1942) after Judd, 0.596 (from memory).
constexpr double kBackDown = 0.596;
// The part of directed light that a film leaves directed on its way in and out is exp(−kDirected·S·thickness). Invented.
constexpr double kDirected = 1.4;

struct Pigment {
  Spectrum k, s;             // of one coat of it alone
};

// Fine particles scatter blue more; coarse ones hardly.
Spectrum scattering(double at_550, double power) {
  return spectrumOf([=](double nm) { return at_550 * std::pow(550 / nm, power); });
}

struct Pair {
  Pigment strong, weak;
};

Pair makePair(Tints tints, double d) {
  switch (tints) {
    case Tints::GreenLime:
      return {{0.95 * hump(648 + d, 52, 70) + 0.80 * hump(418 + d, 60, 38) + even(0.06), scattering(0.16, 1.3)},
              {0.34 * hump(690 + d, 66, 60) + 0.62 * hump(410 + d, 60, 46) + even(0.015), scattering(0.34, 0.8)}};
    case Tints::BrickOchre:
      return {{0.85 * (even(1) + (-1) * rise(588 + d, 17)) + 0.22 * hump(530 + d, 40, 30) + even(0.05), scattering(0.24, 0.6)},
              {0.52 * (even(1) + (-1) * rise(514 + d, 24)) + 0.07 * hump(640 + d, 35, 45) + even(0.02), scattering(0.40, 0.5)}};
    case Tints::NavySky:
      return {{1.15 * hump(606 + d, 48, 44) + 0.55 * hump(688 + d, 30, 60) + 0.30 * hump(540 + d, 34, 30) + even(0.05), scattering(0.12, 1.5)},
              {0.36 * hump(628 + d, 62, 52) + 0.10 * hump(556 + d, 30, 30) + even(0.012), scattering(0.38, 1.0)}};
    case Tints::PlumRose:
      return {{1.05 * hump(556 + d, 44, 34) + 0.35 * hump(500 + d, 26, 20) + 0.16 * hump(400 + d, 30, 30) + even(0.06), scattering(0.14, 1.2)},
              {0.42 * hump(532 + d, 36, 30) + 0.10 * hump(415 + d, 30, 34) + even(0.012), scattering(0.36, 0.9)}};
  }
  return {};
}

const Pigment& black() {
  static const Pigment p{even(2.4) + 0.25 * hump(400, 40, 120), scattering(0.06, 1.0)};
  return p;
}

GroundBody makeGround(Ground ground) {
  switch (ground) {
    case Ground::White: return {0.90 * rise(396, 12) + (-0.03) * hump(430, 30, 60), even(0), 30, 0};
    case Ground::Grey: return {even(0.33) + 0.015 * hump(470, 60, 90), even(0), 30, 0};
    case Ground::FineSilver: return {even(0.24), even(0.36) + 0.03 * rise(540, 80), 26, 0.020};
    case Ground::CoarseSilver: return {even(0.17), even(0.40) + (-0.03) * hump(420, 30, 60), 34, 0.055};
    case Ground::Pearl: return {0.64 * rise(400, 14), 0.15 * even(1) + 0.05 * hump(480, 50, 70), 22, 0.012};
    case Ground::Gold: return {0.13 * even(1) + 0.10 * rise(548, 38), 0.18 * even(1) + 0.20 * rise(540, 30), 30, 0.040};
  }
  return {};
}

double cosInside(double cos_in_air) { return std::sqrt(1 - (1 - cos_in_air * cos_in_air) / (kIndex * kIndex)); }

}  // namespace

const GroundBody& body(Ground ground) {
  static const std::array<GroundBody, 6> all{makeGround(Ground::White), makeGround(Ground::Grey), makeGround(Ground::FineSilver),
                                             makeGround(Ground::CoarseSilver), makeGround(Ground::Pearl), makeGround(Ground::Gold)};
  return all[static_cast<std::size_t>(ground)];
}

std::string_view nameOf(Ground ground) {
  constexpr std::array<std::string_view, 6> kNames{"white", "grey", "fine silver", "coarse silver", "pearl", "gold"};
  return kNames[static_cast<std::size_t>(ground)];
}

std::string_view nameOf(Tints tints) {
  constexpr std::array<std::string_view, 4> kNames{"green and lime", "brick and ochre", "navy and sky", "plum and rose"};
  return kNames[static_cast<std::size_t>(tints)];
}

Layer layerOf(double kx, double sx) {
  const double both = kx + sx, root = std::sqrt(kx * (kx + 2 * sx));
  if (root < 1e-7) return {sx / (1 + both), 1 / (1 + both)};
  // Hyperbolic functions times 2·exp(−root), so that thick layers do not overflow.
  const double e = std::exp(-root), cosh2 = 1 + e * e, sinh2 = 1 - e * e, below = both * sinh2 + root * cosh2;
  return {sx * sinh2 / below, 2 * root * e / below};
}

double over(const Layer& layer, double under) { return layer.r + layer.t * layer.t * under / (1 - layer.r * under); }

double thickLimit(double k, double s) {
  const double q = k / s;
  return 1 + q - std::sqrt(q * q + 2 * q);
}

Geometry geometryOf(const Vec3& to_lamp, const Vec3& to_eye) {
  const Vec3 in{to_lamp[0] / kIndex, to_lamp[1] / kIndex, cosInside(to_lamp[2])}, out{to_eye[0] / kIndex, to_eye[1] / kIndex, cosInside(to_eye[2])};
  const Vec3 half = in + out;
  return {to_lamp[2], to_eye[2], half[2] / std::sqrt(dot(half, half))};
}

Geometry standardGeometry() { return geometryOf({std::numbers::sqrt2 / 2, 0, std::numbers::sqrt2 / 2}, {0, 0, 1}); }

double flakeGain(const GroundBody& ground, const Geometry& at, double half_spread) {
  static const Geometry standard = standardGeometry();
  const double n = 1 / (1 / ground.exponent + half_spread * half_spread);
  const double lobe = (n + 2) * std::pow(at.cos_half, n), reference = (ground.exponent + 2) * std::pow(standard.cos_half, ground.exponent);
  const double slant = cosInside(standard.cos_in) / (cosInside(at.cos_in) * cosInside(at.cos_out));
  return lobe / reference * slant;
}

double flakeGainDiffuse(const GroundBody& ground) {
  constexpr int kSteps = 200;
  double sum = 0, weights = 0;
  for (int i = 0; i < kSteps; ++i) {
    const double angle = (i + 0.5) / kSteps * std::numbers::pi / 2, weight = std::sin(2 * angle);
    sum += weight * flakeGain(ground, geometryOf({std::sin(angle), 0, std::cos(angle)}, {0, 0, 1}));
    weights += weight;
  }
  return sum / weights;
}

double fresnel(double c) {
  const double t = cosInside(c);
  const double rs = (c - kIndex * t) / (c + kIndex * t), rp = (kIndex * c - t) / (kIndex * c + t);
  return 0.5 * (rs * rs + rp * rp);
}

double throughSurface(double directed, double diffuse, const Geometry& at) {
  return (1 - fresnel(at.cos_in)) * (1 - fresnel(at.cos_out)) / (kIndex * kIndex) * directed / (1 - kBackDown * diffuse);
}

double throughSurface(double inside, const Geometry& at) { return throughSurface(inside, inside, at); }

Spectrum reflectance(const Paint& paint, double film, double flake_gain, const Geometry& at) {
  const Pair pair = makePair(paint.tints, paint.shift_nm);
  const GroundBody& ground = body(paint.ground);
  static const Spectrum clear = 0.02 * hump(390, 30, 45);
  const double tint = paint.load * film, whole = std::floor(paint.coats), rest = paint.coats - whole;
  Spectrum out;
  for (std::size_t i = 0; i < kBands; ++i) {
    const double k = tint * (paint.share * pair.strong.k[i] + (1 - paint.share) * pair.weak.k[i] + paint.shade * black().k[i]);
    const double s = tint * (paint.share * pair.strong.s[i] + (1 - paint.share) * pair.weak.s[i] + paint.shade * black().s[i]);
    const double directed = std::exp(-kDirected * s * paint.coats);
    // Of light straight from the lamp, and of the diffuse light that layers and surface throw back and forth.
    double diffuse = paint.ground_tone * (ground.diffuse[i] + ground.flakes[i]);
    double straight = diffuse + paint.ground_tone * ground.flakes[i] * (flake_gain - 1) * directed;
    const auto lay = [&](const Layer& layer) {
      straight = layer.r + layer.t * layer.t * straight / (1 - layer.r * diffuse);
      diffuse = over(layer, diffuse);
    };
    const Layer coat = layerOf(k, s);
    for (int n = 0; n < static_cast<int>(whole); ++n) lay(coat);
    lay(layerOf(k * rest, s * rest));
    lay(layerOf(clear[i], 0));
    out[i] = throughSurface(straight, diffuse, at);
  }
  return out;
}

Spectrum reflectance(const Paint& paint, double film) { return reflectance(paint, film, 1, standardGeometry()); }

}  // namespace huewright::render2
