// What is soft in a picture: the shadows of things, and the lens.
#include <algorithm>
#include <cmath>

#include "render/canvas.hpp"
#include "render/texture.hpp"

namespace huewright::render {

void Canvas::dropShadow(const Quad& quad, double scale) {
  constexpr double kHeight = 7, kSoftness = 13, kDark = 0.5, kReach = 4, kContactDark = 0.35;
  const double soft_width = kSoftness * scale, contact_width = kReach * scale;
  const double ox = kHeight * scale * (0.35 + toward_x_), oy = kHeight * scale * (0.35 + toward_y_);
  const Edges edges(quad);
  const Box box = boxOf(quad, size_, soft_width + std::abs(ox) + std::abs(oy));
  // Distance outside a corner is rounder than the nearest edge's: combine the two outermost edges.
  const auto outside = [&](double x, double y) {
    const double across = std::max(-std::min(edges.distance(1, x, y), edges.distance(3, x, y)), 0.0);
    const double along = std::max(-std::min(edges.distance(0, x, y), edges.distance(2, x, y)), 0.0);
    return across > 0 && along > 0 ? std::hypot(across, along) : -edges.inside(x, y);
  };
  for (int row = box.top; row < box.bottom; ++row)
    for (int column = box.left; column < box.right; ++column) {
      const double x = column + 0.5, y = row + 0.5;
      if (edges.inside(x, y) > 1) continue;
      const double cast = kDark * smooth(0.5 - outside(x - ox, y - oy) / (2 * soft_width));
      const double contact = kContactDark * smooth(1 - outside(x, y) / contact_width);
      const auto left = static_cast<float>((1 - cast) * (1 - contact));
      float* px = at(column, row);
      for (std::size_t c = 0; c < 3; ++c) px[c] *= left;
    }
}

void Canvas::blur(double sigma) {
  if (sigma <= 0) return;
  const int reach = std::max(1, static_cast<int>(std::ceil(2.6 * sigma)));
  std::vector<float> kernel;
  double total = 0;
  for (int k = -reach; k <= reach; ++k) total += std::exp(-0.5 * k * k / (sigma * sigma));
  for (int k = -reach; k <= reach; ++k) kernel.push_back(static_cast<float>(std::exp(-0.5 * k * k / (sigma * sigma)) / total));
  const auto row_size = static_cast<std::size_t>(size_.width) * 3, rows = static_cast<std::size_t>(size_.height);
  const auto pad = static_cast<std::size_t>(reach) * 3;
  std::vector<float> padded(row_size + 2 * pad), across(rgb_.size());
  for (std::size_t y = 0; y < rows; ++y) {
    const float* in = rgb_.data() + y * row_size;
    std::copy_n(in, row_size, padded.begin() + static_cast<std::ptrdiff_t>(pad));
    for (std::size_t i = 0; i < pad; ++i) {
      padded[i] = in[i % 3];
      padded[pad + row_size + i] = in[row_size - 3 + i % 3];
    }
    float* out = across.data() + y * row_size;
    for (std::size_t k = 0; k < kernel.size(); ++k) {
      const float weight = kernel[k];
      const float* from = padded.data() + 3 * k;
      for (std::size_t i = 0; i < row_size; ++i) out[i] += weight * from[i];
    }
  }
  for (std::size_t y = 0; y < rows; ++y) {
    float* out = rgb_.data() + y * row_size;
    std::fill_n(out, row_size, 0.0f);
    for (int k = -reach; k <= reach; ++k) {
      const int source = std::clamp(static_cast<int>(y) + k, 0, size_.height - 1);
      const float* from = across.data() + static_cast<std::size_t>(source) * row_size;
      const float weight = kernel[static_cast<std::size_t>(k + reach)];
      for (std::size_t i = 0; i < row_size; ++i) out[i] += weight * from[i];
    }
  }
}

}  // namespace huewright::render
