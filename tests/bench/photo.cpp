#include "bench/photo.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <fstream>
#include <stdexcept>

#include "colour/rgb.hpp"
#include "support/chart_picture.hpp"
#include "support/fixtures.hpp"

namespace huewright::bench {
namespace {

/// Nearly normal numbers, mean 0, standard deviation 1: the sum of four uniform ones. Fast, and the same everywhere.
class Noise {
 public:
  float next() {
    state_ ^= state_ << 13;
    state_ ^= state_ >> 7;
    state_ ^= state_ << 17;
    const auto part = [&](int shift) { return static_cast<float>((state_ >> shift) & 0xFFFF); };
    return (part(0) + part(16) + part(32) + part(48) - 131070.0f) / 37837.0f;
  }

 private:
  std::uint64_t state_ = 0x9E3779B97F4A7C15;
};

/// Noise of one plane, smoothed over `side` pixels, standard deviation 1.
std::vector<float> plane(Noise& noise, int side) {
  const int w = kSize.width, h = kSize.height;
  const int across = w / side + 2, down = h / side + 2;
  std::vector<float> knots(static_cast<std::size_t>(across) * static_cast<std::size_t>(down));
  for (float& knot : knots) knot = noise.next();
  std::vector<float> out(static_cast<std::size_t>(w) * static_cast<std::size_t>(h));
  for (int y = 0; y < h; ++y)
    for (int x = 0; x < w; ++x) {
      const int column = x / side, row = y / side;
      const float fx = static_cast<float>(x % side) / static_cast<float>(side), fy = static_cast<float>(y % side) / static_cast<float>(side);
      const float* a = knots.data() + static_cast<std::ptrdiff_t>(row) * across + column;
      const float* b = a + across;
      out[static_cast<std::size_t>(y) * static_cast<std::size_t>(w) + static_cast<std::size_t>(x)] =
          (1 - fy) * (a[0] + fx * (a[1] - a[0])) + fy * (b[0] + fx * (b[1] - b[0]));
    }
  return out;
}

bool inside(const Rect& r, int x, int y, int margin) {
  return x >= r.x - margin && x < r.x + r.width + margin && y >= r.y - margin && y < r.y + r.height + margin;
}

using Code = std::array<float, 3>;

/// Codes of the patches, row by row; none without a chart.
std::vector<Code> chartCodes(bool with_chart) {
  std::vector<Code> codes;
  if (!with_chart) return codes;
  const auto chart = readChart24(HUEWRIGHT_SOURCE_DIR "/calib");
  if (!chart) throw std::runtime_error("cannot read the chart's colours");
  for (const Vec3& light : fixtures::chartLight(*chart)) {
    Code code;
    for (std::size_t c = 0; c < 3; ++c) code[c] = static_cast<float>(245 * srgbFromLinear(std::min(light[c], 1.0)));
    codes.push_back(code);
  }
  return codes;
}

Code surface(int x, int y, float grain, const std::vector<Code>& chart) {
  constexpr int kBorder = 40;  // things are larger than the regions marked on them
  if (inside(kPanel, x, y, kBorder)) return {38, 128, 137};
  if (inside(kCard, x, y, kBorder)) return {46, 138, 146};
  if (inside(kGrey, x, y, kBorder)) return {118, 118, 118};
  if (!chart.empty() && inside(kChart, x, y, kBorder)) {
    constexpr int kPitch = kChart.width / 6, kGap = 30;   // a patch and its gap; the gap
    const int dx = x - kChart.x, dy = y - kChart.y;
    const auto on = [](int at) { return at % kPitch >= kGap / 2 && at % kPitch < kPitch - kGap / 2; };
    return inside(kChart, x, y, 0) && on(dx) && on(dy) ? chart[static_cast<std::size_t>(dy / kPitch * 6 + dx / kPitch)] : Code{42, 42, 42};
  }
  return {128 + 22 * grain, 100 + 20 * grain, 76 + 18 * grain};  // a wooden bench
}

}  // namespace

void writePhoto(const std::filesystem::path& path, bool with_chart) {
  const auto chart = chartCodes(with_chart);
  Noise noise;
  const auto grain = plane(noise, 23), fine = plane(noise, 2), blotch = plane(noise, 5);
  fixtures::Picture picture{kSize, std::vector<std::uint16_t>(3 * grain.size())};
  std::size_t i = 0;
  for (int y = 0; y < kSize.height; ++y)
    for (int x = 0; x < kSize.width; ++x, ++i) {
      const auto code = surface(x, y, grain[i] + 0.4f * fine[i], chart);
      const float light = 1.0f - 0.04f * static_cast<float>(x) / static_cast<float>(kSize.width);
      const float luma = 1.2f * noise.next() + 1.8f * fine[i], red = 1.1f * blotch[i], blue = -0.8f * blotch[i];
      const std::array<float, 3> moved{code[0] * light + luma + red, code[1] * light + luma, code[2] * light + luma + blue};
      for (std::size_t c = 0; c < 3; ++c) picture.rgb[3 * i + c] = static_cast<std::uint16_t>(std::lround(std::clamp(moved[c], 0.0f, 255.0f)));
    }
  const auto bytes = fixtures::jpeg(picture, {.quality = 90, .profile = fixtures::srgbProfile(), .exif = fixtures::exif({.make = "Bench", .exposure = true})});
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
  if (!file.flush()) throw std::runtime_error("cannot write " + path.string());
}

std::vector<std::string> judgeWords(const std::filesystem::path& path) {
  const auto text = [](const Rect& r) {
    return std::to_string(r.x) + "," + std::to_string(r.y) + "," + std::to_string(r.width) + "," + std::to_string(r.height);
  };
  return {"judge", path.string(), "--panel", text(kPanel), "--card", text(kCard), "--grey", text(kGrey), "--grey-y", "0.18", "--mix", "1:3", "--coats", "4"};
}

}  // namespace huewright::bench
