// Sensor codes to colours: each cell of the filter's pattern becomes one R, G and B. Nothing is interpolated.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "photo/geometry.hpp"

namespace huewright {

/// Which of R, G, B (0, 1, 2) a sensor pixel sees, by row and column of the visible picture.
using FilterAt = std::function<int(int row, int column)>;

inline constexpr int kFilterPeriod = 24;  ///< pixels; a multiple of the periods of all patterns that are read here

/// A pattern of filters: 2×2 and 6×6 ones, and any other that repeats within kFilterPeriod.
class FilterPattern {
 public:
  /// Nothing unless aligned squares of 2, 3 or 6 pixels hold the same number of each of the three colours everywhere.
  static std::optional<FilterPattern> make(const FilterAt& filter);

  int side() const { return side_; }  ///< of a cell, pixels
  /// R, G, B (0, 1, 2) of the pixels of a row, kFilterPeriod of them.
  const std::uint8_t* row(int row) const { return colour_.data() + std::ptrdiff_t{row % kFilterPeriod} * kFilterPeriod; }

 private:
  int side_ = 2;
  std::array<std::uint8_t, std::size_t{kFilterPeriod} * kFilterPeriod> colour_{};
};

/// Codes as the sensor's library keeps them, and what they mean. The codes belong to somebody else.
struct SensorData {
  const std::uint16_t* codes = nullptr;   ///< the first sample of the first visible pixel
  std::ptrdiff_t pitch = 0;               ///< codes from one row to the next
  int samples = 1;                        ///< codes of a pixel: 1 under a filter; 3 or 4, of which the first three count, without
  Size size;                              ///< visible pixels
  std::optional<FilterPattern> filter;    ///< absent when each pixel has all three colours
  std::vector<float> black;               ///< codes of no light: of kFilterPeriod² pixels under a filter, row by row; else of R, G, B
  float white = 0;                        ///< code of saturation
  std::array<float, 3> top{};             ///< codes of R, G, B from here up count as clipped
};

/// Makes rows of cells. A cell at the right or lower edge that is not whole repeats its neighbour's values.
class CellReader {
 public:
  /// The picture is at least one cell wide and high, and white lies above every black.
  explicit CellReader(SensorData data);

  int side() const { return data_.filter ? data_.filter->side() : 1; }
  int across() const { return (data_.size.width + side() - 1) / side(); }
  int down() const { return (data_.size.height + side() - 1) / side(); }

  /// One row of cells. Light: R, G, B of each, share of saturation above black, slightly negative below it. Clip, as in Raster: top
  /// when any pixel of that colour is at its top; bottom when the cell's mean is at or below black, or any pixel has the code 0.
  /// A single pixel that noise carried below black has lost nothing.
  void read(int cell_row, std::vector<float>& light, std::vector<std::uint8_t>& clip) const;

 private:
  SensorData data_;
  std::vector<float> scale_;  // 1 ÷ (white − black), as black
};

}  // namespace huewright
