#include "render/style.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace huewright::render {
namespace {

constexpr int kToneSteps = 16384;

// The sRGB curve at kToneSteps + 2 places of light 0..1.
const std::vector<float>& srgbCurve() {
  static const std::vector<float> curve = [] {
    std::vector<float> c;
    for (int i = 0; i <= kToneSteps + 1; ++i)
      c.push_back(static_cast<float>(std::min(srgbFromLinear(static_cast<double>(i) / kToneSteps), 1.0)));
    return c;
  }();
  return curve;
}

std::vector<float> toneCurve(double contrast) {
  std::vector<float> curve = srgbCurve();
  const auto k = static_cast<float>(contrast);
  if (k > 0)
    for (float& c : curve) c = (1 - k) * c + k * c * c * (3 - 2 * c);
  return curve;
}

float throughTone(const std::vector<float>& curve, float light) {
  const float at = std::clamp(light, 0.0f, 1.0f) * kToneSteps;
  const auto i = static_cast<std::size_t>(at);
  return curve[i] + (at - static_cast<float>(i)) * (curve[i + 1] - curve[i]);
}

// Colour-difference signals grown and turned; the turn depends smoothly on the hue.
void twist(const Style& style, float* px, std::size_t count) {
  const auto gain = static_cast<float>(style.saturation);
  const auto turn = static_cast<float>(style.hue_twist_deg * std::numbers::pi / 180);
  const auto px_cos = static_cast<float>(std::cos(style.hue_phase_deg * std::numbers::pi / 180));
  const auto px_sin = static_cast<float>(std::sin(style.hue_phase_deg * std::numbers::pi / 180));
  for (std::size_t i = 0; i < 3 * count; i += 3) {
    const float luma = 0.299f * px[i] + 0.587f * px[i + 1] + 0.114f * px[i + 2];
    const float cb = px[i + 2] - luma, cr = px[i] - luma;
    const float size = std::sqrt(cb * cb + cr * cr) + 1e-4f;
    const float angle = turn * (cb * px_cos + cr * px_sin) / size;
    const float b = gain * (cb - angle * cr), r = gain * (cr + angle * cb);
    px[i] = luma + r;
    px[i + 2] = luma + b;
    px[i + 1] = luma - (0.299f * r + 0.114f * b) / 0.587f;
  }
}

// Unsharp mask on luma with a 3×3 binomial low-pass.
void sharpen(double amount, Size size, std::vector<float>& code) {
  const auto w = static_cast<std::size_t>(size.width), h = static_cast<std::size_t>(size.height);
  std::vector<float> luma(w * h), low(w * h);
  for (std::size_t i = 0; i < w * h; ++i) luma[i] = 0.299f * code[3 * i] + 0.587f * code[3 * i + 1] + 0.114f * code[3 * i + 2];
  for (std::size_t y = 0; y < h; ++y) {
    const float* up = luma.data() + (y == 0 ? 0 : y - 1) * w;
    const float* at = luma.data() + y * w;
    const float* down = luma.data() + std::min(y + 1, h - 1) * w;
    float* out = low.data() + y * w;
    for (std::size_t x = 0; x < w; ++x) out[x] = 0.25f * (up[x] + 2 * at[x] + down[x]);
  }
  const auto k = static_cast<float>(amount);
  for (std::size_t y = 0; y < h; ++y)
    for (std::size_t x = 0; x < w; ++x) {
      const float* row = low.data() + y * w;
      const float smooth = 0.25f * (row[x == 0 ? 0 : x - 1] + 2 * row[x] + row[std::min(x + 1, w - 1)]);
      const float more = k * (luma[y * w + x] - smooth);
      for (std::size_t c = 0; c < 3; ++c) code[3 * (y * w + x) + c] += more;
    }
}

}  // namespace

Style linearStyle(Space space) {
  Style s;
  s.linear = true;
  s.space = space;
  return s;
}

Style plainJpeg() { return {}; }

Style randomStyle(Random& random) {
  Style s;
  s.tagged = random.chance(0.7);
  s.contrast = random.uniform(0, 0.6);
  s.saturation = random.uniform(1, 1.25);
  s.hue_twist_deg = random.uniform(-4, 4);
  s.hue_phase_deg = random.uniform(0, 360);
  s.sharpening = random.uniform(0, 0.8);
  s.quality = 80 + random.below(16);
  s.full_chroma = random.chance(0.3);
  return s;
}

std::vector<std::uint8_t> encode8(const Style& style, Size size, std::span<const float> linear) {
  std::vector<float> toned;
  if (style.local_tone > 0) {
    toned = locallyToned(style.local_tone, size, linear);
    linear = toned;
  }
  const auto curve = toneCurve(style.contrast);
  std::vector<float> code(linear.size());
  for (std::size_t i = 0; i < linear.size(); ++i) code[i] = throughTone(curve, linear[i]);
  if (style.saturation != 1 || style.hue_twist_deg != 0) twist(style, code.data(), code.size() / 3);
  if (style.sharpening > 0) sharpen(style.sharpening, size, code);
  std::vector<std::uint8_t> bytes(code.size());
  for (std::size_t i = 0; i < code.size(); ++i)
    bytes[i] = static_cast<std::uint8_t>(std::clamp(code[i], 0.0f, 1.0f) * 255.0f + 0.5f);
  return bytes;
}

std::vector<std::uint16_t> encode16(std::span<const float> linear, int bits) {
  const int step = 1 << (16 - bits), most = (1 << bits) - 1;
  std::vector<std::uint16_t> codes(linear.size());
  for (std::size_t i = 0; i < linear.size(); ++i) {
    const int code = static_cast<int>(std::clamp(linear[i], 0.0f, 1.0f) * static_cast<float>(most) + 0.5f);
    codes[i] = static_cast<std::uint16_t>(bits == 16 ? code : std::min(code * step + (code == most ? step - 1 : 0), 65535));
  }
  return codes;
}

std::vector<float> readBack(const Style& style, Size size, std::span<const float> linear) {
  const Mat3 to_xyz = rgbToXyzD50(primaries(style.linear ? style.space : Space::Srgb));
  float m[3][3];
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) m[r][c] = static_cast<float>(to_xyz(r, c));
  std::vector<float> out(linear.size());
  if (style.linear) {
    const auto codes = encode16(linear);
    for (std::size_t i = 0; i < out.size(); ++i) out[i] = static_cast<float>(codes[i]) / 65535.0f;
  } else {
    std::array<float, 256> light{};
    for (std::size_t i = 0; i < 256; ++i) light[i] = static_cast<float>(srgbToLinear(static_cast<double>(i) / 255));
    const auto codes = encode8(style, size, linear);
    for (std::size_t i = 0; i < out.size(); ++i) out[i] = light[codes[i]];
  }
  for (std::size_t i = 0; i + 2 < out.size(); i += 3) {
    const float r = out[i], g = out[i + 1], b = out[i + 2];
    for (std::size_t c = 0; c < 3; ++c) out[i + c] = m[c][0] * r + m[c][1] * g + m[c][2] * b;
  }
  return out;
}

}  // namespace huewright::render
