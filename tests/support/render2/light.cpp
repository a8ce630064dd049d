#include "render2/light.hpp"

#include <array>
#include <cmath>
#include <map>
#include <numeric>
#include <stdexcept>

namespace huewright::render2 {
namespace {

Spectrum toMeanOne(const Spectrum& s) { return static_cast<double>(kBands) / std::accumulate(s.v.begin(), s.v.end(), 0.0) * s; }

// Tristimulus values that are not scaled to the white of the light itself.
Vec3 plainXyz(const Spectrum& light) { return xyzBy(even(1), light); }

// Amounts of three emissions such that together they have the black body's chromaticity.
Spectrum atChromaticity(const std::array<Spectrum, 3>& parts, double kelvin) {
  const Mat3 columns = transpose(Mat3{{plainXyz(parts[0]), plainXyz(parts[1]), plainXyz(parts[2])}});
  const Vec3 amounts = inverse(columns) * plainXyz(blackBody(kelvin));
  for (const double a : amounts)
    if (!(a > 0)) throw std::logic_error("a lamp would need less than nothing of an emission");
  return toMeanOne(amounts[0] * parts[0] + amounts[1] * parts[1] + amounts[2] * parts[2]);
}

// A blue pump, a broad phosphor and a red one.
Spectrum led(double kelvin, double pump, double phosphor, double width, double red) {
  return atChromaticity({hump(pump, 8, 11) + 0.03 * hump(pump + 30, 16, 22), hump(phosphor, 0.75 * width, 1.25 * width), hump(red, 30, 44)}, kelvin);
}

// Lines as they look through 5 nm: europium blue, terbium green with its side lines, europium red, and mercury in each.
Spectrum triphosphor(double kelvin) {
  const Spectrum blue = hump(449, 15, 21) + 0.55 * hump(436, 3.5, 3.5) + 0.18 * hump(405, 3.5, 3.5);
  const Spectrum green = hump(544, 4.5, 5.5) + 0.33 * hump(488, 6, 8) + 0.14 * hump(585, 5, 6) + 0.10 * hump(622, 4, 4);
  const Spectrum red = hump(611, 4, 4.5) + 0.16 * hump(630, 4, 4) + 0.14 * hump(593, 6, 6) + 0.08 * hump(707, 5, 5);
  return atChromaticity({blue, green, red}, kelvin);
}

const std::map<std::string, Spectrum, std::less<>>& lamps() {
  static const std::map<std::string, Spectrum, std::less<>> all{
      {"led 2700", led(2700, 455, 555, 50, 632)},       {"led 3500", led(3500, 452, 548, 54, 618)},
      {"led 4500", led(4500, 449, 545, 56, 610)},       {"led 6000", led(6000, 446, 540, 52, 604)},
      {"led 5200 full", led(5200, 458, 538, 62, 648)},  {"triphosphor 3000", triphosphor(3000)},
      {"triphosphor 4100", triphosphor(4100)},          {"triphosphor 6300", triphosphor(6300)},
      {"black body 2500", blackBody(2500)},             {"black body 3000", blackBody(3000)},
      {"black body 4300", blackBody(4300)},             {"black body 5600", blackBody(5600)}};
  return all;
}

}  // namespace

Spectrum blackBody(double kelvin) {
  constexpr double kSecond = 1.4388e7;   // second radiation constant, nm·K (CODATA, from memory)
  return toMeanOne(spectrumOf([=](double nm) { return std::pow(nm / 560, -5) / std::expm1(kSecond / (nm * kelvin)); }));
}

const std::vector<std::string>& lampNames() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> n;
    for (const auto& [name, spectrum] : lamps()) n.push_back(name);
    return n;
  }();
  return names;
}

const Spectrum& lampSpectrum(std::string_view name) {
  const auto at = lamps().find(name);
  if (at == lamps().end()) throw std::invalid_argument("no such lamp: " + std::string(name));
  return at->second;
}

Spectrum wall(int which) {
  switch (which) {
    case 0: return 0.55 * even(1) + 0.25 * rise(500, 50);
    case 1: return 0.50 * even(1) + 0.16 * hump(535, 50, 60);
    case 2: return 0.48 * even(1) + 0.20 * hump(450, 60, 70);
    case 3: return 0.18 * even(1) + 0.36 * rise(590, 35);
    default: return 0.70 * even(1) + 0.03 * rise(560, 100);
  }
}

LightField::LightField(const LightSpec& spec) : spec_(spec), middle_(1), half_spread_(0) {
  middle_ = plain({0, 0});
  lamp_light_ = lampSpectrum(spec.lamp);
  // As much of it, to the observer's eye, as of the lamp's: the spec's part counts luminances.
  const Spectrum bounced = lamp_light_ * wall(spec.wall);
  ambient_light_ = plainXyz(lamp_light_)[1] / plainXyz(bounced)[1] * bounced;
  // A disc's mean square distance from a diameter is a quarter of its radius squared; the angle shrinks by the clear's index and halves.
  half_spread_ = 0.5 * spec.radius / std::sqrt(dot(spec.at, spec.at)) / 1.5 / 2;
}

double LightField::plain(Point p) const {
  const Vec3 way = spec_.at - Vec3{p.x, p.y, 0};
  const double square = dot(way, way), distance = std::sqrt(square), cosine = way[2] / distance;
  if (spec_.radius <= 0) return cosine / square;
  const double facing = dot(way, spec_.at) / (distance * std::sqrt(dot(spec_.at, spec_.at)));
  return cosine * facing / (square + spec_.radius * spec_.radius);
}

double LightField::lamp(Point p) const { return (1 - spec_.ambient) * plain(p) / middle_; }

double LightField::ambient(Point p) const {
  return spec_.ambient * (1 + (spec_.ambient_x * p.x + spec_.ambient_y * p.y) / spec_.half_width);
}

Vec3 LightField::toLamp(Point p) const {
  const Vec3 way = spec_.at - Vec3{p.x, p.y, 0};
  return 1 / std::sqrt(dot(way, way)) * way;
}

}  // namespace huewright::render2
