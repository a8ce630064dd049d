#include "photo/colour_path.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

namespace huewright {
namespace {

class CurvesAndMatrix final : public ColourPath {
 public:
  CurvesAndMatrix(CurveTables curves, const Mat3& to_xyz) : curves_(std::move(curves)) {
    for (std::size_t r = 0; r < 3; ++r)
      for (std::size_t c = 0; c < 3; ++c) matrix_[3 * r + c] = static_cast<float>(to_xyz(r, c));
  }

  void convert(const StoredRow& row, int from, int count, float* xyz) const override {
    if (row.sample == Sample::Code8)
      run(row.code8(from), row.channels, count, xyz);
    else
      run(row.code16(from), row.channels, count, xyz);
  }

 private:
  template <class Code>
  void run(const Code* code, int step, int count, float* xyz) const {
    // A stray code above the bits in use is folded back, so that no table is read past its end.
    const std::size_t mask = curves_[0]->size() - 1;
    const float *red = curves_[0]->data(), *green = curves_[1]->data(), *blue = curves_[2]->data();
    const std::array<float, 9> m = matrix_;
    for (int i = 0; i < count; ++i, code += step, xyz += 3) {
      const float r = red[code[0] & mask], g = green[code[1] & mask], b = blue[code[2] & mask];
      xyz[0] = m[0] * r + m[1] * g + m[2] * b;
      xyz[1] = m[3] * r + m[4] * g + m[5] * b;
      xyz[2] = m[6] * r + m[7] * g + m[8] * b;
    }
  }

  CurveTables curves_;
  std::array<float, 9> matrix_{};
};

class BalanceAndMatrix final : public ColourPath {
 public:
  BalanceAndMatrix(const Vec3& factors, const Mat3& to_xyz) {
    for (std::size_t r = 0; r < 3; ++r) {
      factors_[r] = static_cast<float>(factors[r]);
      for (std::size_t c = 0; c < 3; ++c) matrix_[3 * r + c] = static_cast<float>(to_xyz(r, c));
    }
  }

  void convert(const StoredRow& row, int from, int count, float* xyz) const override {
    const float* rgb = row.xyz(from);
    for (int i = 0; i < count; ++i, rgb += row.channels, xyz += 3) {
      const float r = std::min(rgb[0] * factors_[0], 1.0F), g = std::min(rgb[1] * factors_[1], 1.0F);
      const float b = std::min(rgb[2] * factors_[2], 1.0F);
      for (std::size_t k = 0; k < 3; ++k) xyz[k] = matrix_[3 * k] * r + matrix_[3 * k + 1] * g + matrix_[3 * k + 2] * b;
    }
  }

 private:
  std::array<float, 3> factors_{};
  std::array<float, 9> matrix_{};
};

class AlreadyXyz final : public ColourPath {
 public:
  void convert(const StoredRow& row, int from, int count, float* xyz) const override {
    std::copy_n(row.xyz(from), std::size_t{3} * static_cast<std::size_t>(count), xyz);
  }
};

}  // namespace

CurveTable tabulate(const ToneCurve& curve, int bits) {
  const std::size_t size = std::size_t{1} << bits;
  auto table = std::make_shared<std::vector<float>>(size);
  for (std::size_t i = 0; i < size; ++i)
    (*table)[i] = static_cast<float>(curve(static_cast<double>(i) / static_cast<double>(size - 1)));
  return table;
}

bool isLinear(const CurveTables& curves) {
  return std::all_of(curves.begin(), curves.end(), [](const CurveTable& table) {
    const double last = static_cast<double>(table->size() - 1);
    for (std::size_t i = 0; i < table->size(); ++i)
      if (!(std::abs(static_cast<double>((*table)[i]) - static_cast<double>(i) / last) < 1e-3)) return false;
    return true;
  });
}

std::shared_ptr<const ColourPath> curvesAndMatrix(CurveTables curves, const Mat3& to_xyz) {
  return std::make_shared<CurvesAndMatrix>(std::move(curves), to_xyz);
}

std::shared_ptr<const ColourPath> balanceAndMatrix(const Vec3& factors, const Mat3& to_xyz) {
  return std::make_shared<BalanceAndMatrix>(factors, to_xyz);
}

std::shared_ptr<const ColourPath> alreadyXyz() { return std::make_shared<AlreadyXyz>(); }

}  // namespace huewright
