// Local tone mapping, as phones do it before the curve.
#include <algorithm>
#include <cmath>

#include "render/style.hpp"

namespace huewright::render {
namespace {

/// Light on a coarse grid, one node for each block of pixels.
struct Coarse {
  int width = 0, height = 0;
  std::vector<double> light;
};

Coarse coarseLight(Size size, int block, std::span<const float> linear) {
  Coarse c{(size.width + block - 1) / block, (size.height + block - 1) / block, {}};
  c.light.resize(static_cast<std::size_t>(c.width) * static_cast<std::size_t>(c.height));
  std::vector<double> count(c.light.size());
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x) {
      const float* px = linear.data() + 3 * (static_cast<std::ptrdiff_t>(y) * size.width + x);
      const auto node = static_cast<std::size_t>(y / block * c.width + x / block);
      c.light[node] += static_cast<double>(std::clamp(0.2126f * px[0] + 0.7152f * px[1] + 0.0722f * px[2], 0.0f, 1.0f));
      count[node] += 1;
    }
  for (std::size_t i = 0; i < c.light.size(); ++i) c.light[i] /= count[i];
  return c;
}

/// One way along a line of `count` values, `stride` apart: a Gaussian whose part beyond the ends is left out.
void soften(double* line, int count, int stride, const std::vector<double>& kernel) {
  std::vector<double> out(static_cast<std::size_t>(count));
  const int reach = static_cast<int>(kernel.size()) - 1;
  for (int i = 0; i < count; ++i) {
    double sum = 0, weight = 0;
    for (int k = std::max(0, i - reach); k <= std::min(count - 1, i + reach); ++k) {
      const double w = kernel[static_cast<std::size_t>(std::abs(k - i))];
      sum += w * line[static_cast<std::ptrdiff_t>(k) * stride];
      weight += w;
    }
    out[static_cast<std::size_t>(i)] = sum / weight;
  }
  for (int i = 0; i < count; ++i) line[static_cast<std::ptrdiff_t>(i) * stride] = out[static_cast<std::size_t>(i)];
}

}  // namespace

std::vector<float> locallyToned(double strength, Size size, std::span<const float> linear) {
  const int block = std::max(1, size.width / 150);
  Coarse c = coarseLight(size, block, linear);
  double mean = 0;
  for (const double v : c.light) mean += v / static_cast<double>(c.light.size());
  const double sigma = size.width / 12.0 / block;
  std::vector<double> kernel;
  for (int k = 0; k <= static_cast<int>(2.6 * sigma) + 1; ++k) kernel.push_back(std::exp(-0.5 * k * k / (sigma * sigma)));
  for (int y = 0; y < c.height; ++y) soften(c.light.data() + static_cast<std::ptrdiff_t>(y) * c.width, c.width, 1, kernel);
  for (int x = 0; x < c.width; ++x) soften(c.light.data() + x, c.height, c.width, kernel);
  constexpr double kLeast = 0.003;   // black pictures stay as they are
  for (double& v : c.light) v = std::pow((v + kLeast) / (mean + kLeast), -0.5 * strength);

  std::vector<float> out(linear.begin(), linear.end());
  const auto node = [&](int x, int y) {
    return c.light[static_cast<std::size_t>(std::clamp(y, 0, c.height - 1) * c.width + std::clamp(x, 0, c.width - 1))];
  };
  std::vector<double> row(static_cast<std::size_t>(c.width) + 2);
  for (int y = 0; y < size.height; ++y) {
    const double v = (y + 0.5) / block + 0.5, below = v - std::floor(v);
    for (int i = 0; i < c.width + 2; ++i)
      row[static_cast<std::size_t>(i)] = (1 - below) * node(i - 1, static_cast<int>(v) - 1) + below * node(i - 1, static_cast<int>(v));
    for (int x = 0; x < size.width; ++x) {
      const double u = (x + 0.5) / block + 0.5;
      const auto at = static_cast<std::size_t>(u);
      const auto gain = static_cast<float>(row[at] + (u - static_cast<double>(at)) * (row[at + 1] - row[at]));
      float* px = out.data() + 3 * (static_cast<std::ptrdiff_t>(y) * size.width + x);
      for (int ch = 0; ch < 3; ++ch) px[ch] *= gain;
    }
  }
  return out;
}

}  // namespace huewright::render
