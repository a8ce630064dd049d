#include "render/paint.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace huewright::render {
namespace {

// The mirror reflection of a clear with n = 1.5 near the normal is 4 %; light crosses the film at 28° once and upright once.
constexpr double kSurface = 0.04;
constexpr double kOblique = 1.065;

struct Tint {
  Spectrum absorb{};    // a coat of undiluted tint, once through
  Spectrum scatter{};
};
struct TintPair {
  Tint strong, weak;
};

// All invented. Widths are standard deviations in nm.
TintPair tealAqua() {
  const Spectrum strong = 1.85 * bump(644, 60) + 0.75 * bump(718, 40) + 0.45 * bump(560, 44) + 1.15 * bump(408, 54) + flat(0.32);
  const Spectrum weak = 0.48 * bump(655, 62) + 0.22 * bump(585, 44) + 0.34 * bump(408, 48) + 0.08 * bump(470, 30) + flat(0.045);
  return {{strong, 0.030 * bump(500, 130) + flat(0.012)}, {weak, 0.020 * bump(520, 140) + flat(0.010)}};
}

TintPair redOrange() {
  const Spectrum fall_red = flat(1) + (-1.0) * step(592, 9);
  const Spectrum fall_orange = flat(1) + (-1.0) * step(541, 11);
  const Spectrum strong = 2.2 * fall_red + 0.9 * bump(545, 32) + 0.3 * bump(430, 40) + flat(0.10);
  const Spectrum weak = 0.85 * fall_orange + 0.25 * bump(470, 40) + flat(0.022);
  return {{strong, 0.035 * step(600, 40) + flat(0.010)}, {weak, 0.030 * step(560, 40) + flat(0.012)}};
}

TintPair violetBlue() {
  const Spectrum strong = 2.6 * bump(566, 36) + 1.3 * bump(528, 26) + 0.7 * bump(620, 26) + 0.5 * bump(395, 24) + flat(0.12);
  const Spectrum weak = 0.80 * bump(618, 38) + 0.50 * bump(575, 34) + 0.22 * bump(690, 40) + 0.08 * bump(395, 25) + flat(0.028);
  return {{strong, 0.030 * bump(440, 80) + flat(0.010)}, {weak, 0.025 * bump(460, 80) + flat(0.010)}};
}

const TintPair& tints(Pair pair) {
  static const TintPair all[] = {tealAqua(), redOrange(), violetBlue()};
  return all[static_cast<int>(pair)];
}

GroundBody makeGround(Ground ground) {
  switch (ground) {
    case Ground::BrightSilver: return {0.58 * flat(1) + 0.045 * step(470, 45), 0.18, 0.055, 0.16};
    case Ground::PearlWhite: return {0.875 * step(398, 9) + (-0.035) * bump(440, 45), 0.45, 0.012, 0.03};
    case Ground::PaleGold: return {0.34 * flat(1) + 0.25 * step(535, 34) + 0.05 * step(640, 30), 0.20, 0.050, 0.14};
    case Ground::Graphite: return {0.125 * flat(1) + 0.018 * bump(460, 70), 0.22, 0.075, 0.18};
  }
  return {};
}

double outside(double inside, double k2) { return (1 - kSurface) * (1 - k2) * inside / (1 - k2 * inside); }

// Reflectance of a two-flux layer over a background. In: absorption and scattering of the whole layer, background 0..1.
double layerOver(double absorb, double scatter, double under) {
  const double both = absorb + scatter;
  const double root = std::sqrt(absorb * (absorb + 2 * scatter));
  double r = 0, t = 0;
  if (root < 1e-9) {
    t = 1 / (1 + both);
    r = scatter * t;
  } else {
    const double once = std::exp(-root), twice = once * once;
    const double cosh2 = 1 + twice, sinh2 = 1 - twice;   // twice the hyperbolic functions, times exp(-root)
    const double below = root * cosh2 + both * sinh2;
    t = 2 * root * once / below;
    r = scatter * sinh2 / below;
  }
  return r + t * t * under / (1 - r * under);
}

}  // namespace

const GroundBody& body(Ground ground) {
  static const std::array<GroundBody, 4> all{makeGround(Ground::BrightSilver), makeGround(Ground::PearlWhite),
                                             makeGround(Ground::PaleGold), makeGround(Ground::Graphite)};
  return all[static_cast<std::size_t>(ground)];
}

std::string_view nameOf(Ground ground) {
  constexpr std::array<std::string_view, 4> kNames{"bright silver", "pearl white", "pale gold", "graphite"};
  return kNames[static_cast<std::size_t>(ground)];
}

std::string_view strongName(Pair pair) {
  constexpr std::array<std::string_view, 3> kNames{"teal, strong", "red, strong", "violet, strong"};
  return kNames[static_cast<std::size_t>(pair)];
}

std::string_view weakName(Pair pair) {
  constexpr std::array<std::string_view, 3> kNames{"aqua, weak", "orange, weak", "blue, weak"};
  return kNames[static_cast<std::size_t>(pair)];
}

std::vector<Spectrum> reflectances(const Paint& paint, std::span<const double> films) {
  const GroundBody& ground = body(paint.ground);
  const TintPair& pair = tints(paint.pair);
  const double tint = 1 / (1 + paint.carrier_per_tint);
  const double amount = kOblique * tint * paint.coats * paint.film;
  std::vector<Spectrum> all(films.size());
  for (std::size_t i = 0; i < kBands; ++i) {
    const double k = amount * (paint.share * pair.strong.absorb[i] + (1 - paint.share) * pair.weak.absorb[i]);
    const double s = amount * (paint.share * pair.strong.scatter[i] + (1 - paint.share) * pair.weak.scatter[i]);
    for (std::size_t f = 0; f < films.size(); ++f)
      all[f][i] = outside(layerOver(films[f] * k, films[f] * s, ground.reflectance[i]), ground.k2);
  }
  return all;
}

Spectrum reflectance(const Paint& paint) {
  constexpr double kOne[] = {1.0};
  return reflectances(paint, kOne).front();
}

Lab<D50> labOf(const Paint& paint) { return labUnderD50(reflectance(paint)); }

Spectrum grey(double y, double tilt) {
  Spectrum shape{};
  for (std::size_t i = 0; i < kBands; ++i) {
    const double t = (wavelength(i) - 560) / 180;
    shape[i] = 1 + tilt * (0.7 * t - 0.45 * std::cos(3.1 * t + 0.6)) / 1.15;
  }
  return (y / xyzUnderD50(shape).Y) * shape;
}

}  // namespace huewright::render
