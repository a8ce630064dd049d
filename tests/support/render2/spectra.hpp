// Spectra of the second renderer on one grid, and what the standard observer makes of them under D50.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "colour/lab.hpp"

namespace huewright::render2 {

inline constexpr std::size_t kBands = 81;  ///< 380 nm to 780 nm, 5 nm apart
constexpr double nanometres(std::size_t band) { return 380.0 + 5.0 * static_cast<double>(band); }

/// One value a band.
struct Spectrum {
  std::array<double, kBands> v{};
  double operator[](std::size_t i) const { return v[i]; }
  double& operator[](std::size_t i) { return v[i]; }
  bool operator==(const Spectrum&) const = default;
};

template <class F>
Spectrum spectrumOf(F of_nm) {
  Spectrum s;
  for (std::size_t i = 0; i < kBands; ++i) s[i] = of_nm(nanometres(i));
  return s;
}

// The outer namespace's operators would be hidden by these.
using huewright::operator+;
using huewright::operator*;
Spectrum operator+(const Spectrum& a, const Spectrum& b);
Spectrum operator*(double k, const Spectrum& a);
Spectrum operator*(const Spectrum& a, const Spectrum& b);

Spectrum even(double value);
/// A Gaussian of height 1, other widths (standard deviations, nm) below and above its peak.
Spectrum hump(double peak_nm, double below_nm, double above_nm);
/// From 0 to 1 round a wavelength; width in nm.
Spectrum rise(double middle_nm, double width_nm);

/// Tristimulus values and CIELAB of a reflectance factor under D50, CIE 1931 2° observer, summed from 380 nm to 780 nm in steps of 5 nm; a perfect
/// diffuser gets exactly the white of D50. Throws std::runtime_error when calib/ cannot be read. Source: CIE 15:2018, 7.1.
Xyz<D50> xyzD50(const Spectrum& reflectance);
Lab<D50> labD50(const Spectrum& reflectance);

/// The same under any light, scaled so that a perfect diffuser has Y = 1.
Vec3 xyzBy(const Spectrum& light, const Spectrum& reflectance);

/// The 24 patches of a colour-rendition chart, row by row. Throws std::runtime_error when its file cannot be read.
const std::vector<Spectrum>& chartPatches();

}  // namespace huewright::render2
