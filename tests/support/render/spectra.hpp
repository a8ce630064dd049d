// Spectra on one grid, and where the renderer's data come from.
#pragma once

#include <array>
#include <cstddef>
#include <filesystem>
#include <string_view>
#include <vector>

#include "colour/lab.hpp"

namespace huewright::render {

inline constexpr std::size_t kBands = 81;           ///< 380 nm to 780 nm, 5 nm apart
using Spectrum = std::array<double, kBands>;        ///< one value a band
constexpr double wavelength(std::size_t band) { return 380.0 + 5.0 * static_cast<double>(band); }

/// Folders of the project's data, and of the data that only tests use.
std::filesystem::path calibFolder();
std::filesystem::path dataFolder();

/// A CIE illuminant by the name it has in calib/, such as "D65", "FL11", "LED-B3", "LED-V1", "ID65"; scaled to a mean of 1.
/// Throws std::runtime_error for a name that is not there.
const Spectrum& illuminant(std::string_view name);

/// Spectral sensitivities (R, G, B) of camera 'a', 'b' or 'c' (measured), 'd' or 'e' (invented). Throws std::runtime_error.
const std::array<Spectrum, 3>& sensitivities(char camera);

/// 190 real surfaces, and the 24 patches of a colour-rendition chart: reflectance factors 0..1.
const std::vector<Spectrum>& surfaces190();
const std::vector<Spectrum>& chart24();

/// Tristimulus values and CIELAB of a reflectance under an illuminant, CIE 1931 2° observer. A perfect diffuser gets exactly the
/// white of D50 or, for chromaticities of a lamp, Y = 1.
Xyz<D50> xyzUnderD50(const Spectrum& reflectance);
Lab<D50> labUnderD50(const Spectrum& reflectance);
Vec3 xyzUnder(const Spectrum& light, const Spectrum& reflectance);
Vec3 whiteOf(const Spectrum& light);

/// Correlated colour temperature in kelvin. Accuracy: a few kelvin near the daylight locus, rough for a greenish lamp.
/// Source: McCamy (1992).
double colourTemperature(const Spectrum& light);

/// Shapes to invent spectra with: a Gaussian of height 1 (width = standard deviation, nm), a step from 0 to 1 (logistic; width
/// in nm), and a flat value.
Spectrum bump(double centre_nm, double width_nm);
Spectrum step(double centre_nm, double width_nm);
Spectrum flat(double value);
// Vec3 and Spectrum are both std::array, so that the operators of the outer namespace must be named here.
using huewright::operator+;
using huewright::operator*;
Spectrum operator+(const Spectrum& a, const Spectrum& b);
Spectrum operator*(double s, const Spectrum& a);
Spectrum operator*(const Spectrum& a, const Spectrum& b);

}  // namespace huewright::render
