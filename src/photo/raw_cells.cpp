#include "photo/raw_cells.hpp"

#include <algorithm>
#include <utility>

namespace huewright {
namespace {

using Counts = std::array<int, 3>;

/// How often each colour comes in the square with this corner.
Counts countIn(const std::vector<int>& colour, int row, int column, int side) {
  Counts counts{};
  for (int y = row; y < row + side; ++y)
    for (int x = column; x < column + side; ++x) ++counts[static_cast<std::size_t>(colour[static_cast<std::size_t>(y * kFilterPeriod + x)])];
  return counts;
}

bool isCell(const std::vector<int>& colour, int side) {
  const Counts first = countIn(colour, 0, 0, side);
  if (*std::min_element(first.begin(), first.end()) == 0) return false;
  for (int y = 0; y < kFilterPeriod; y += side)
    for (int x = 0; x < kFilterPeriod; x += side)
      if (countIn(colour, y, x, side) != first) return false;
  return true;
}

/// Pixels of one colour, added up.
struct Sum {
  std::array<float, 3> light{};
  std::array<int, 3> count{};
  unsigned clip = 0;

  void add(unsigned colour, float code, float black, float scale, float top) {
    light[colour] += (code - black) * scale;
    ++count[colour];
    clip |= static_cast<unsigned>(code >= top) << colour | static_cast<unsigned>(code <= 0) << (colour + 3);
  }
};

}  // namespace

std::optional<FilterPattern> FilterPattern::make(const FilterAt& filter) {
  std::vector<int> colour;
  for (int y = 0; y < kFilterPeriod; ++y)
    for (int x = 0; x < kFilterPeriod; ++x) {
      colour.push_back(filter(y, x));
      if (colour.back() < 0 || colour.back() > 2) return std::nullopt;
    }
  for (const int side : {2, 3, 6}) {
    if (!isCell(colour, side)) continue;
    FilterPattern pattern;
    pattern.side_ = side;
    std::transform(colour.begin(), colour.end(), pattern.colour_.begin(), [](int c) { return static_cast<std::uint8_t>(c); });
    return pattern;
  }
  return std::nullopt;
}

CellReader::CellReader(SensorData data) : data_(std::move(data)) {
  for (const float black : data_.black) scale_.push_back(1 / (data_.white - black));
}

void CellReader::read(int cell_row, std::vector<float>& light, std::vector<std::uint8_t>& clip) const {
  const int cells = across(), step = side();
  light.resize(std::size_t{3} * static_cast<std::size_t>(cells));
  clip.resize(static_cast<std::size_t>(cells));
  // A cell that is not whole takes the place of the last that is.
  const int first_row = std::min(cell_row, data_.size.height / step - 1) * step;
  const int whole = data_.size.width / step;
  for (int cell = 0; cell < cells; ++cell) {
    const int first = std::min(cell, whole - 1) * step;
    Sum sum;
    for (int y = first_row; y < first_row + step; ++y) {
      const std::uint16_t* code = data_.codes + y * data_.pitch + std::ptrdiff_t{first} * data_.samples;
      if (!data_.filter) {
        for (unsigned c = 0; c < 3; ++c) sum.add(c, code[c], data_.black[c], scale_[c], data_.top[c]);
        continue;
      }
      const std::uint8_t* colour = data_.filter->row(y);
      const std::size_t line = static_cast<std::size_t>(y % kFilterPeriod) * kFilterPeriod;
      std::size_t at = static_cast<std::size_t>(first % kFilterPeriod);
      for (int x = first; x < first + step; ++x, ++at, ++code)
        sum.add(colour[at], *code, data_.black[line + at], scale_[line + at], data_.top[colour[at]]);
    }
    for (unsigned c = 0; c < 3; ++c) {
      light[std::size_t{3} * static_cast<std::size_t>(cell) + c] = sum.light[c] / static_cast<float>(sum.count[c]);
      sum.clip |= static_cast<unsigned>(sum.light[c] <= 0) << (c + 3);
    }
    clip[static_cast<std::size_t>(cell)] = static_cast<std::uint8_t>(sum.clip);
  }
}

}  // namespace huewright
