// From stored codes to linear XYZ.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <memory>
#include <vector>

#include "colour/matrix.hpp"

namespace huewright {

/// How one sample of a stored row is kept.
enum class Sample {
  Code8,   ///< one byte
  Code16,  ///< two bytes in the machine's order; fewer than 16 bits may be in use
  Xyz,     ///< a float that is already linear XYZ (D50), or camera RGB of a raw file
};

/// Some pixels of a stored row: `channels` samples a pixel, of which the first three are R, G, B (or X, Y, Z).
struct StoredRow {
  int y = 0, x = 0, count = 0;
  Sample sample = Sample::Code8;
  int channels = 3;
  const void* data = nullptr;
  const std::uint8_t* clip = nullptr;  ///< one byte a pixel, as in Raster, where the source judges that itself

  /// The first sample of pixel number `i` of this row.
  const std::uint8_t* code8(int i) const { return static_cast<const std::uint8_t*>(data) + std::ptrdiff_t{i} * channels; }
  const std::uint16_t* code16(int i) const { return static_cast<const std::uint16_t*>(data) + std::ptrdiff_t{i} * channels; }
  const float* xyz(int i) const { return static_cast<const float*>(data) + std::ptrdiff_t{i} * channels; }
};

/// Turns stored codes into XYZ relative to D50, white Y = 1.
class ColourPath {
 public:
  virtual ~ColourPath() = default;

  /// Writes 3 floats for each of `count` pixels of the row, from pixel number `from` on.
  virtual void convert(const StoredRow& row, int from, int count, float* xyz) const = 0;
};

/// Light of a channel (0..1) for a code (0..1).
using ToneCurve = std::function<double(double)>;

/// The curves of R, G and B as tables: one entry for each code.
using CurveTable = std::shared_ptr<const std::vector<float>>;
using CurveTables = std::array<CurveTable, 3>;

/// Fills a table for codes of this many bits, 1..16. Accuracy: that of float.
CurveTable tabulate(const ToneCurve& curve, int bits);

/// True when light follows the codes in proportion within 0.001 of the range, in all three tables.
bool isLinear(const CurveTables& curves);

/// A table for each channel, then a matrix to XYZ (D50). Accuracy: 3e-7 of the white. The tables' size tells the bits.
std::shared_ptr<const ColourPath> curvesAndMatrix(CurveTables curves, const Mat3& to_xyz);

/// For rows that are XYZ already, or that nothing is to be done to.
std::shared_ptr<const ColourPath> alreadyXyz();

/// For rows of linear camera RGB floats: each channel times its factor, cut off at 1 so that what is clipped comes out white,
/// then a matrix to XYZ (D50).
std::shared_ptr<const ColourPath> balanceAndMatrix(const Vec3& factors, const Mat3& to_xyz);

}  // namespace huewright
