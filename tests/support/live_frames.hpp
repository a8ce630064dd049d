// Frames of a made-up live camera: a sample photo, shifted and with noise that is new in every frame.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <random>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "photo/photo.hpp"

namespace huewright::fixtures {

class LiveScene {
 public:
  /// In: a sample photo's name; the longest side of its frames, pixels (never enlarged).
  explicit LiveScene(const std::string& photo, int side = 4000, unsigned seed = 1) : random_(seed) {
    auto opened = Photo::open(std::string(HUEWRIGHT_SOURCE_DIR "/sample-images/") + photo);
    auto preview = opened ? opened->preview(side) : Result<Preview>(std::unexpected(opened.error()));
    if (!preview) throw std::runtime_error(sentence(preview.error()));
    size_ = preview->size;
    codes_ = std::move(preview->rgb);
  }

  LiveScene(Size size, std::vector<std::uint8_t> codes, unsigned seed) : size_(size), codes_(std::move(codes)), random_(seed) {}

  Size size() const { return size_; }
  const std::vector<std::uint8_t>& codes() const { return codes_; }

  /// The scene moved by a shift and a turn about the middle (degrees, clockwise), its light times a factor, with normal noise of that deviation in codes.
  std::vector<std::uint8_t> frame(double noise = 2, double dx = 0, double dy = 0, double turn = 0, double light = 1) {
    std::vector<std::uint8_t> out(codes_.size());
    const double c = std::cos(turn * 0.017453292519943295), s = std::sin(turn * 0.017453292519943295);
    const double mx = 0.5 * size_.width, my = 0.5 * size_.height, code_factor = std::pow(light, 1 / 2.2);
    const bool whole = turn == 0 && dx == std::round(dx) && dy == std::round(dy);
    for (int y = 0; y < size_.height; ++y)
      for (int x = 0; x < size_.width; ++x) {
        const double px = x + 0.5 - dx - mx, py = y + 0.5 - dy - my;
        for (int k = 0; k < 3; ++k) {
          const double code = whole ? at(x - static_cast<int>(dx), y - static_cast<int>(dy), k) : between(c * px + s * py + mx, c * py - s * px + my, k);
          out[index(x, y, k)] = static_cast<std::uint8_t>(std::clamp(std::lround(code * code_factor + noise * normals_[random_() % normals_.size()]), 0L, 255L));
        }
      }
    return out;
  }

 private:
  /// Drawing from a table takes a fifth of the time of drawing anew.
  static std::vector<double> normals(unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<double> normal;
    std::vector<double> table(1U << 16);
    for (double& value : table) value = normal(random);
    return table;
  }
  std::size_t index(int x, int y, int k) const { return 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(size_.width) + static_cast<std::size_t>(x)) + static_cast<std::size_t>(k); }
  double at(int x, int y, int k) const { return codes_[index(std::clamp(x, 0, size_.width - 1), std::clamp(y, 0, size_.height - 1), k)]; }
  double between(double x, double y, int k) const {
    x -= 0.5, y -= 0.5;
    const int left = static_cast<int>(std::floor(x)), top = static_cast<int>(std::floor(y));
    const double u = x - left, v = y - top;
    return (1 - v) * ((1 - u) * at(left, top, k) + u * at(left + 1, top, k)) + v * ((1 - u) * at(left, top + 1, k) + u * at(left + 1, top + 1, k));
  }

  Size size_;
  std::vector<std::uint8_t> codes_;
  std::mt19937 random_;
  std::vector<double> normals_ = normals(7);
};

}  // namespace huewright::fixtures
