#include "render/spectra.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
#include <stdexcept>
#include <string>

#include "colour/spectrum.hpp"

namespace huewright::render {
namespace {

std::filesystem::path supportFolder() {
#ifdef HUEWRIGHT_SOURCE_DIR
  return std::filesystem::path(HUEWRIGHT_SOURCE_DIR) / "tests" / "support";
#else
  return std::filesystem::path(__FILE__).parent_path().parent_path();
#endif
}

std::vector<double> grid() {
  std::vector<double> nm(kBands);
  for (std::size_t i = 0; i < kBands; ++i) nm[i] = wavelength(i);
  return nm;
}

SpectralTable tableOf(const std::filesystem::path& path) {
  auto table = readSpectralTable(path);
  if (!table) throw std::runtime_error("renderer data missing: " + path.string() + " " + table.error().detail);
  return *std::move(table);
}

Spectrum onGrid(const SpectralTable& table, const std::vector<double>& column, bool zero_outside) {
  const auto values = resample(table.nm, column, grid());
  Spectrum s{};
  for (std::size_t i = 0; i < kBands; ++i) {
    const bool outside = wavelength(i) < table.nm.front() || wavelength(i) > table.nm.back();
    s[i] = zero_outside && outside ? 0.0 : values[i];
  }
  return s;
}

const Observer& observer() {
  static const Observer o = [] {
    auto read = readObserver(calibFolder());
    if (!read) throw std::runtime_error("renderer data missing: the observer");
    return resample(*read, grid());
  }();
  return o;
}

// Frozen; see kUnseenCameras. Dyes of a filter array over silicon, cut off at both ends; all invented.
std::array<Spectrum, 3> inventedCamera(char camera) {
  const bool older = camera == 'e';   // wider filters that overlap more, and a softer cut in the red
  const Spectrum cut = step(older ? 408 : 414, 5) * (flat(1) + (-1.0) * step(older ? 692 : 668, older ? 11 : 7));
  if (older)
    return {cut * (0.82 * bump(606, 40) + 0.10 * bump(520, 40) + 0.03 * bump(440, 25)), cut * (bump(538, 41) + 0.06 * bump(650, 30)),
            cut * (0.74 * bump(462, 33) + 0.07 * bump(530, 35))};
  return {cut * (0.66 * bump(603, 30) + 0.08 * bump(555, 34) + 0.02 * bump(450, 30)), cut * (bump(533, 34) + 0.10 * bump(590, 30)),
          cut * (0.86 * bump(456, 26) + 0.05 * bump(512, 24))};
}

std::vector<Spectrum> surfacesOf(const char* name) {
  const auto table = tableOf(dataFolder() / name);
  std::vector<Spectrum> all;
  for (const auto& column : table.columns) all.push_back(onGrid(table, column, false));
  return all;
}

// Weights that turn a reflectance into XYZ under D50, white exactly that of the type.
const std::array<Spectrum, 3>& weightsD50() {
  static const std::array<Spectrum, 3> weights = [] {
    const Spectrum& light = illuminant("D50");
    const auto& o = observer();
    std::array<Spectrum, 3> w{};
    Vec3 sum{};
    for (std::size_t i = 0; i < kBands; ++i) {
      w[0][i] = light[i] * o.x[i];
      w[1][i] = light[i] * o.y[i];
      w[2][i] = light[i] * o.z[i];
      for (std::size_t c = 0; c < 3; ++c) sum[c] += w[c][i];
    }
    for (std::size_t c = 0; c < 3; ++c) w[c] = (kWhite<D50>[c] / sum[c]) * w[c];
    return w;
  }();
  return weights;
}

template <class Operation>
Spectrum each(Operation operation) {
  Spectrum s{};
  for (std::size_t i = 0; i < kBands; ++i) s[i] = operation(i);
  return s;
}

}  // namespace

std::filesystem::path calibFolder() { return supportFolder().parent_path().parent_path() / "calib"; }
std::filesystem::path dataFolder() { return supportFolder() / "data"; }

const Spectrum& illuminant(std::string_view name) {
  static const std::map<std::string, Spectrum, std::less<>> lights = [] {
    std::map<std::string, Spectrum, std::less<>> all;
    for (const char* file : {"illuminants-a-c-d-e.csv", "illuminants-fluorescent.csv", "illuminants-led.csv"}) {
      const auto table = tableOf(calibFolder() / file);
      for (std::size_t n = 0; n < table.names.size(); ++n) {
        Spectrum s = onGrid(table, table.columns[n], false);
        double sum = 0;
        for (const double v : s) sum += v;
        all[table.names[n]] = (static_cast<double>(kBands) / sum) * s;
      }
    }
    return all;
  }();
  const auto at = lights.find(name);
  if (at == lights.end()) throw std::runtime_error("no such light: " + std::string(name));
  return at->second;
}

const std::array<Spectrum, 3>& sensitivities(char camera) {
  static std::map<char, std::array<Spectrum, 3>> cameras;
  static std::mutex mutex;
  const std::lock_guard lock(mutex);
  auto at = cameras.find(camera);
  if (at == cameras.end() && (camera == 'd' || camera == 'e')) at = cameras.emplace(camera, inventedCamera(camera)).first;
  if (at == cameras.end()) {
    const auto table = tableOf(dataFolder() / (std::string("camera-") + camera + "-sensitivity.csv"));
    std::array<Spectrum, 3> rgb{};
    for (std::size_t c = 0; c < 3; ++c) rgb[c] = onGrid(table, table.columns.at(c), true);
    at = cameras.emplace(camera, rgb).first;
  }
  return at->second;
}

const std::vector<Spectrum>& surfaces190() {
  static const auto all = surfacesOf("surfaces-190-reflectance.csv");
  return all;
}

const std::vector<Spectrum>& chart24() {
  static const auto all = surfacesOf("chart24-reflectance.csv");
  return all;
}

Xyz<D50> xyzUnderD50(const Spectrum& reflectance) {
  const auto& w = weightsD50();
  Vec3 sum{};
  for (std::size_t i = 0; i < kBands; ++i) {
    sum[0] += w[0][i] * reflectance[i];
    sum[1] += w[1][i] * reflectance[i];
    sum[2] += w[2][i] * reflectance[i];
  }
  return {sum[0], sum[1], sum[2]};
}

Lab<D50> labUnderD50(const Spectrum& reflectance) { return toLab(xyzUnderD50(reflectance)); }

Vec3 xyzUnder(const Spectrum& light, const Spectrum& reflectance) { return integrate(observer(), light, reflectance); }

Vec3 whiteOf(const Spectrum& light) { return integrate(observer(), light); }

double colourTemperature(const Spectrum& light) {
  const auto [x, y] = toChromaticity(whiteOf(light));
  const double n = (x - 0.3320) / (0.1858 - y);
  return ((449.0 * n + 3525.0) * n + 6823.3) * n + 5520.33;
}

Spectrum bump(double centre_nm, double width_nm) {
  return each([&](std::size_t i) {
    const double d = (wavelength(i) - centre_nm) / width_nm;
    return std::exp(-0.5 * d * d);
  });
}

Spectrum step(double centre_nm, double width_nm) {
  return each([&](std::size_t i) { return 1.0 / (1.0 + std::exp(-(wavelength(i) - centre_nm) / width_nm)); });
}

Spectrum flat(double value) {
  return each([&](std::size_t) { return value; });
}

Spectrum operator+(const Spectrum& a, const Spectrum& b) {
  return each([&](std::size_t i) { return a[i] + b[i]; });
}

Spectrum operator*(double s, const Spectrum& a) {
  return each([&](std::size_t i) { return s * a[i]; });
}

Spectrum operator*(const Spectrum& a, const Spectrum& b) {
  return each([&](std::size_t i) { return a[i] * b[i]; });
}

}  // namespace huewright::render
