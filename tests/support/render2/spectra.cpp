#include "render2/spectra.hpp"

#include <cmath>
#include <filesystem>
#include <stdexcept>
#include <string>

#include "colour/spectrum.hpp"

namespace huewright::render2 {
namespace {

std::filesystem::path projectFolder() {
#ifdef HUEWRIGHT_SOURCE_DIR
  return HUEWRIGHT_SOURCE_DIR;
#else
  return std::filesystem::path(__FILE__).parent_path().parent_path().parent_path().parent_path();
#endif
}

const std::vector<double>& grid() {
  static const std::vector<double> nm = [] {
    std::vector<double> g;
    for (std::size_t i = 0; i < kBands; ++i) g.push_back(nanometres(i));
    return g;
  }();
  return nm;
}

SpectralTable tableIn(const std::filesystem::path& path) {
  auto table = readSpectralTable(path);
  if (!table) throw std::runtime_error("renderer data missing: " + path.string() + " " + table.error().detail);
  return *std::move(table);
}

Spectrum gridded(const SpectralTable& table, const std::vector<double>& column) {
  const auto values = resample(table.nm, column, grid());
  Spectrum s;
  for (std::size_t i = 0; i < kBands; ++i) s[i] = values[i];
  return s;
}

const Observer& observer() {
  static const Observer o = [] {
    const auto read = readObserver(projectFolder() / "calib");
    if (!read) throw std::runtime_error("renderer data missing: the observer");
    return resample(*read, grid());
  }();
  return o;
}

const Spectrum& d50() {
  static const Spectrum light = [] {
    const auto table = tableIn(projectFolder() / "calib" / "illuminants-a-c-d-e.csv");
    const auto* column = table.find("D50");
    if (!column) throw std::runtime_error("renderer data missing: D50");
    return gridded(table, *column);
  }();
  return light;
}

}  // namespace

Spectrum operator+(const Spectrum& a, const Spectrum& b) {
  Spectrum s;
  for (std::size_t i = 0; i < kBands; ++i) s[i] = a[i] + b[i];
  return s;
}

Spectrum operator*(double k, const Spectrum& a) {
  Spectrum s;
  for (std::size_t i = 0; i < kBands; ++i) s[i] = k * a[i];
  return s;
}

Spectrum operator*(const Spectrum& a, const Spectrum& b) {
  Spectrum s;
  for (std::size_t i = 0; i < kBands; ++i) s[i] = a[i] * b[i];
  return s;
}

Spectrum even(double value) {
  return spectrumOf([=](double) { return value; });
}

Spectrum hump(double peak_nm, double below_nm, double above_nm) {
  return spectrumOf([=](double nm) {
    const double z = (nm - peak_nm) / (nm < peak_nm ? below_nm : above_nm);
    return std::exp(-0.5 * z * z);
  });
}

Spectrum rise(double middle_nm, double width_nm) {
  return spectrumOf([=](double nm) { return 0.5 * (1 + std::erf((nm - middle_nm) / (1.7 * width_nm))); });
}

Vec3 xyzBy(const Spectrum& light, const Spectrum& reflectance) { return integrate(observer(), light.v, reflectance.v); }

Xyz<D50> xyzD50(const Spectrum& reflectance) {
  static const Vec3 white = xyzBy(d50(), even(1));
  const Vec3 xyz = xyzBy(d50(), reflectance);
  return {xyz[0] * kWhite<D50>[0] / white[0], xyz[1] * kWhite<D50>[1] / white[1], xyz[2] * kWhite<D50>[2] / white[2]};
}

Lab<D50> labD50(const Spectrum& reflectance) { return toLab(xyzD50(reflectance)); }

const std::vector<Spectrum>& chartPatches() {
  static const std::vector<Spectrum> patches = [] {
    const auto table = tableIn(projectFolder() / "tests" / "support" / "data" / "chart24-reflectance.csv");
    std::vector<Spectrum> all;
    for (const auto& column : table.columns) all.push_back(gridded(table, column));
    return all;
  }();
  return patches;
}

}  // namespace huewright::render2
