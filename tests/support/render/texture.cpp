#include "render/texture.hpp"

#include <algorithm>
#include <cmath>

namespace huewright::render {

std::vector<float> smoothField(int width, int height, double px_x, double px_y, Random& random) {
  const int nodes_x = static_cast<int>(width / px_x) + 3, nodes_y = static_cast<int>(height / px_y) + 3;
  std::vector<float> node(static_cast<std::size_t>(nodes_x) * nodes_y + 4);
  for (std::size_t i = 0; i + 4 <= node.size(); i += 4) random.normals4(node.data() + i);
  std::vector<int> column(static_cast<std::size_t>(width));
  std::vector<float> weight(column.size()), row(static_cast<std::size_t>(nodes_x));
  const double shift_x = random.uniform(), shift_y = random.uniform();
  const auto ease = [](double t) { return static_cast<float>(t * t * (3 - 2 * t)); };
  for (int x = 0; x < width; ++x) {
    const double at = x / px_x + shift_x;
    column[static_cast<std::size_t>(x)] = static_cast<int>(at);
    weight[static_cast<std::size_t>(x)] = ease(at - std::floor(at));
  }
  // Interpolating between independent nodes lowers the spread to about 0.74 in each direction.
  constexpr float kRestore = 1.35f * 1.35f;
  std::vector<float> field(static_cast<std::size_t>(width) * height);
  for (int y = 0; y < height; ++y) {
    const double at = y / px_y + shift_y;
    const float t = ease(at - std::floor(at));
    const float* upper = node.data() + static_cast<std::size_t>(at) * nodes_x;
    for (std::size_t i = 0; i < row.size(); ++i) row[i] = kRestore * (upper[i] + t * (upper[i + row.size()] - upper[i]));
    float* out = field.data() + static_cast<std::size_t>(y) * width;
    for (std::size_t x = 0; x < column.size(); ++x) {
      const float* pair = row.data() + column[x];
      out[x] = pair[0] + weight[x] * (pair[1] - pair[0]);
    }
  }
  return field;
}

std::vector<float> whiteField(int width, int height, Random& random) {
  const std::size_t count = static_cast<std::size_t>(width) * height;
  std::vector<float> field(count + 4);
  for (std::size_t i = 0; i < count; i += 4) random.normals4(field.data() + i);
  field.resize(count);
  return field;
}

}  // namespace huewright::render
