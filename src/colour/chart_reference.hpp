// What the patches of a colour chart are known to be.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "colour/cgats.hpp"
#include "colour/lab.hpp"
#include "colour/spectrum.hpp"

namespace huewright {

/// Reflectance factors (1 is the perfect diffuser) at regular wavelengths.
struct Spectrum {
  double first_nm = 0, step_nm = 0;
  std::vector<double> values;

  double lastNm() const { return first_nm + step_nm * static_cast<double>(values.size() - 1); }
};

/// A spectrum on another grid: between its samples by Sprague's quintic, which passes through them; held at the ends. In: at least six values.
/// Accuracy: the 24-patch chart's spectra thinned out from 5 nm to 10 or 20 nm stay within 0.1 ΔE00; straight lines between them would cost
/// 0.15 and 0.67. Source: CIE 167:2005, as printed in Westland, Ripamonti, Cheung (2012), Computational Colour Science (sections from memory).
std::vector<double> spragueResample(const Spectrum& spectrum, std::span<const double> grid);

/// The 2° observer and illuminant D50 on one grid.
struct SpectralBasis {
  Observer observer;
  std::vector<double> d50;
};

/// Reads both from the data folder. Errors: DataMissing.
Result<SpectralBasis> readSpectralBasis(const std::filesystem::path& calib);

/// CIELAB under D50 for the 2° observer, summed in steps of 1 nm; the white is that of the same sum, so that the perfect diffuser has exactly
/// 100, 0, 0. In: at least six values. Beyond the spectrum's ends the last value holds (CIE 15:2018, 7.2.3). Source: CIE 15:2018, 7.1 and 8.2.1.
Lab<D50> labOfSpectrum(const Spectrum& spectrum, const SpectralBasis& basis);

struct ChartPatch {
  std::string name;
  Lab<D50> lab;
  std::optional<Spectrum> reflectance;
};

struct ChartReference {
  std::string title, source;  ///< the file's DESCRIPTOR and ORIGINATOR; empty without
  int columns = 0, rows = 0;
  std::vector<ChartPatch> patches;  ///< row by row from the chart's own top left; columns × rows of them
  std::vector<std::string> notes;   ///< what had to be assumed or converted, as sentences

  const ChartPatch& at(int column, int row) const { return patches[static_cast<std::size_t>(row * columns + column)]; }
};

/// The chart that a table describes.
///
/// Colours: spectra if there are any (SPECTRAL_NM380, SPECTRAL_380, NM_380, SPEC_380 and the like, in any order; a regular step of 1 to 20 nm, at
/// least from 400 to 700 nm), else LAB_L LAB_A LAB_B, else XYZ_X XYZ_Y XYZ_Z. Reflectances and XYZ count as 0 to 1 where no patch exceeds 1.5, as
/// percent where more than half of the patches do, or as the fields say (SPECTRAL_PCT380, SPECTRAL_DEC380). CIELAB and XYZ count as D50, 2°,
/// unless a keyword (WEIGHTING_FUNCTION, ILLUMINANT, ILLUMINATION_NAME, MEASUREMENT_SOURCE with Illumination=) says A, C, D55, D65 or D75: those are
/// carried over by Bradford, with a note.
///
/// Places: letters and numbers (A1 to F4, AA12) in SAMPLE_LOC, SAMPLE_ID or SAMPLE_NAME that fill a grid. The larger of the two counts is the number
/// of
/// columns, as charts lie; of equal ones the letters are the columns, with a note. Otherwise row by row, by sample numbers 1 to n or the file's
/// order,
/// with the columns as given; without, 24 patches count as 6 × 4, with a note.
///
/// In: columns, 0 if not known. Errors: anything that does not fit the above, an observer other than 2°, values relative to paper, light instead of
/// surfaces, numbers out of range, places twice or missing; with the line where there is one.
std::expected<ChartReference, CgatsProblem> chartReference(const CgatsTable& table, const SpectralBasis& basis, int columns = 0);

/// The 24-patch colour-rendition chart from calib/charts/chart24.txt. Errors: DataMissing with the file and the line.
Result<ChartReference> readChart24(const std::filesystem::path& calib);

}  // namespace huewright
