// Spectra to tristimulus values.
#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "colour/matrix.hpp"
#include "colour/white.hpp"

namespace huewright {

/// Columns of values against wavelength in nanometres.
struct SpectralTable {
  std::vector<double> nm;                        ///< strictly ascending
  std::vector<std::string> names;                ///< of the value columns
  std::vector<std::vector<double>> columns;      ///< one per name, as long as nm

  /// The column of that name, or nullptr.
  const std::vector<double>* find(std::string_view name) const;
};

/// Reads a comma-separated table: lines that start with # are comments, the first other line names the columns (the first is the
/// wavelength), an empty field counts as 0. Errors: DataMissing with the file and the line.
Result<SpectralTable> readSpectralTable(const std::filesystem::path& path);

/// Values on another grid, linear between the samples and held at the ends. In: both grids ascending, nanometres.
std::vector<double> resample(std::span<const double> nm, std::span<const double> values, std::span<const double> grid);

/// The CIE 1931 2° standard observer on a grid of its own.
struct Observer {
  std::vector<double> nm, x, y, z;
};

/// Reads calib/observer-1931-2deg.csv. Errors: DataMissing.
Result<Observer> readObserver(const std::filesystem::path& calib);

/// The observer on another grid, linear between its samples.
Observer resample(const Observer& observer, std::span<const double> grid);

/// Tristimulus values by summation on the observer's grid, scaled so that a perfect diffuser has Y = 1 under the illuminant.
/// In: reflectance factor 0..1 and relative illuminant power, both on the observer's grid; an empty reflectance means the perfect
/// diffuser. Source: CIE 15:2018, 7.1.
Vec3 integrate(const Observer& observer, std::span<const double> illuminant, std::span<const double> reflectance = {});

/// CIE 1931 chromaticity of tristimulus values.
Chromaticity toChromaticity(const Vec3& xyz);

}  // namespace huewright
