#include "mix/clear_shift.hpp"

#include <Eigen/Dense>
#include <algorithm>

#include "mix/tint_model.hpp"

namespace huewright {
namespace {

constexpr double kGainSd = 0.15, kOffsetSd = 0.03;

/// Standard deviation of one channel; dark channels are never surer than at 5 % of white.
double scatterOf(double linear) { return kClearScatter * std::max(linear, 0.05); }

}  // namespace

ClearShift::ClearShift(std::span<const ClearedPair> pairs) : pairs_(pairs.size()) {
  Eigen::Matrix4d information = Eigen::Vector4d(1 / (kGainSd * kGainSd), 1 / (kGainSd * kGainSd), 1 / (kGainSd * kGainSd), 1 / (kOffsetSd * kOffsetSd)).asDiagonal();
  Eigen::Vector4d sum = information * Eigen::Vector4d(1, 1, 1, 0);
  for (const ClearedPair& pair : pairs) {
    const Vec3 from = sharpened(pair.uncleared), to = sharpened(pair.cleared);
    for (Eigen::Index c = 0; c < 3; ++c) {
      const auto channel = static_cast<std::size_t>(c);
      Eigen::Vector4d row = Eigen::Vector4d::Zero();
      row[c] = from[channel];
      row[3] = 1;
      const double weight = 1 / (scatterOf(to[channel]) * scatterOf(to[channel]));
      information += weight * row * row.transpose();
      sum += weight * to[channel] * row;
    }
  }
  const Eigen::Matrix4d covariance = information.inverse();
  const Eigen::Vector4d mean = covariance * sum;
  std::copy(mean.data(), mean.data() + 4, mean_.begin());
  std::copy(covariance.data(), covariance.data() + 16, covariance_.begin());
}

ClearedColour ClearShift::cleared(const Lab<D50>& uncleared) const {
  const Vec3 from = sharpened(uncleared);
  Vec3 to{};
  Mat3 linear{};
  for (std::size_t c = 0; c < 3; ++c) to[c] = mean_[c] * from[c] + mean_[3];
  for (std::size_t a = 0; a < 3; ++a)
    for (std::size_t b = 0; b < 3; ++b) {
      linear(a, b) = from[a] * covariance_[4 * a + b] * from[b] + from[a] * covariance_[4 * a + 3] + from[b] * covariance_[4 * b + 3] + covariance_[15];
      if (a == b) linear(a, b) += scatterOf(to[a]) * scatterOf(to[a]);
    }
  // ∂Lab/∂sharpened by differences: the step is small against the curve, and the error (1e-6) against the covariance.
  constexpr double kStep = 1e-6;
  Mat3 by_linear{};
  for (std::size_t c = 0; c < 3; ++c) {
    Vec3 above = to, below = to;
    above[c] += kStep;
    below[c] -= kStep;
    const Vec3 slope = (0.5 / kStep) * (toVec(labOfSharpened(above)) - toVec(labOfSharpened(below)));
    for (std::size_t r = 0; r < 3; ++r) by_linear(r, c) = slope[r];
  }
  return {labOfSharpened(to), by_linear * linear * transpose(by_linear)};
}

}  // namespace huewright
