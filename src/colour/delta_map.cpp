#include "colour/delta_map.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numbers>

namespace huewright {
namespace {

constexpr std::size_t kTile = 256;  // pixels at a time: what is between the steps stays in the nearest cache

struct Fixed {
  std::array<float, 9> to_lab{};  ///< correction, then division by the white
  float L = 0, a = 0, b = 0, chroma = 0;
};

/// Cube root of a positive number. Accuracy: 2e-7 relative. A third of the bits as an integer is within 6 %; Halley's step cubes that.
[[gnu::always_inline]] inline float cubeRoot(float t) {
  constexpr float kThird = 1.0f / 3.0f, kBias = 709'958'130.0f;
  float y = std::bit_cast<float>(static_cast<std::int32_t>(static_cast<float>(std::bit_cast<std::int32_t>(t)) * kThird + kBias));
  float y3 = y * y * y;
  y = y * (y3 + 2.0f * t) / (2.0f * y3 + t);
  y3 = y * y * y;
  return y - y * (y3 - t) / (2.0f * y3 + t);
}

/// CIE 15:2018, 8.2.1.
[[gnu::always_inline]] inline float labCurve(float t) {
  constexpr float kKnee = (24.0f / 116.0f) * (24.0f / 116.0f) * (24.0f / 116.0f);
  const float root = cubeRoot(t > kKnee ? t : kKnee);
  const float straight = (841.0f / 108.0f) * t + 16.0f / 116.0f;
  return t > kKnee ? root : straight;
}

/// 2^z for -60 <= z <= 0. Accuracy: 3e-7 relative (Taylor's series of the fraction to the sixth power).
[[gnu::always_inline]] inline float powerOfTwo(float z) {
  constexpr float kRound = 12'582'912.0f;  // 1.5 * 2^23: what is added to it is rounded to a whole number
  const float whole = (z + kRound) - kRound;
  const float f = (z - whole) * std::numbers::ln2_v<float>;
  const float power =
      1.0f + f * (1.0f + f * (1.0f / 2 + f * (1.0f / 6 + f * (1.0f / 24 + f * (1.0f / 120 + f * (1.0f / 720))))));
  return power * std::bit_cast<float>((static_cast<std::int32_t>(whole) + 127) << 23);
}

/// sin(2 Δθ), equation 16, from the cosine of the mean hue's distance from 275°. The square of the distance is a power series of
/// q = sin² of its half: 4 asin²(√q) = 4 (q + q²/3 + 8 q³/45 + 4 q⁴/35 + 128 q⁵/1575 + ...). Accuracy: 2e-6.
[[gnu::always_inline]] inline float sineOfTwiceTheta(float cosine) {
  constexpr float kDegrees = 180.0f / std::numbers::pi_v<float>;
  constexpr float kScale = -4.0f * (kDegrees / 25.0f) * (kDegrees / 25.0f) * std::numbers::log2e_v<float>;
  constexpr float kFar = 0.6f;  // over 100°: nothing is left there
  float q = 0.5f - 0.5f * cosine;
  q = q > 0.0f ? q : 0.0f;
  q = q < kFar ? q : kFar;
  const float square = q * (1.0f + q * (1.0f / 3 + q * (8.0f / 45 + q * (4.0f / 35 + q * (128.0f / 1575 + q * (128.0f / 2079))))));
  const float w = (std::numbers::pi_v<float> / 3) * powerOfTwo(kScale * square), w2 = w * w;
  return w * (1.0f + w2 * (-1.0f / 6 + w2 * (1.0f / 120 + w2 * (-1.0f / 5040 + w2 * (1.0f / 362880)))));
}

[[gnu::always_inline]] inline float seventhShare(float chroma) {  // sqrt(C^7 / (C^7 + 25^7))
  const float r = chroma * (1.0f / 25.0f), r2 = r * r, r7 = r2 * r2 * r2 * r;
  return std::sqrt(r7 / (r7 + 1.0f));
}

/// Sharma, Wu, Dalal (2005); equation numbers stand beside the lines. Index 1 is the pixel, 2 the fixed colour.
[[gnu::always_inline]] inline float difference(const Fixed& c, float x, float y, float z) {
  constexpr float kTiny = 1e-36f;
  const float fx = labCurve(c.to_lab[0] * x + c.to_lab[1] * y + c.to_lab[2] * z);
  const float fy = labCurve(c.to_lab[3] * x + c.to_lab[4] * y + c.to_lab[5] * z);
  const float fz = labCurve(c.to_lab[6] * x + c.to_lab[7] * y + c.to_lab[8] * z);
  const float L = 116.0f * fy - 16.0f, a = 500.0f * (fx - fy), b = 200.0f * (fy - fz);

  const float by = 1.5f - 0.5f * seventhShare(0.5f * (std::sqrt(a * a + b * b) + c.chroma));     // 2 to 4
  const float a1 = by * a, a2 = by * c.a;                                                        // 5
  const float c1 = std::sqrt(a1 * a1 + b * b), c2 = std::sqrt(a2 * a2 + c.b * c.b);              // 6
  // 7, 10, 11: the two products stand for the hue angles; the half angle's sine comes from whichever of them loses no digits.
  const float product = c1 * c2, along = a1 * a2 + b * c.b, across = a2 * b - c.b * a1;
  const bool near = along >= 0.0f;
  const float dh_near = across * across * 2.0f / (product + along + kTiny), dh_far = 2.0f * (product - along);
  const float dH = std::copysign(std::sqrt(near ? dh_near : dh_far), across);
  // 14: the mean hue's direction: the two unit vectors' sum, or their difference turned by a right angle, times c1 c2.
  const float e1x = a1 * c2, e1y = b * c2, e2x = a2 * c1, e2y = c.b * c1, side = std::copysign(1.0f, across);
  const float vx = near ? e1x + e2x : side * (e1y - e2y), vy = near ? e1y + e2y : side * (e2x - e1x);
  const float norm = 1.0f / std::sqrt(vx * vx + vy * vy + kTiny);
  const float h1c = vx * norm, h1s = vy * norm;
  const float h2c = h1c * h1c - h1s * h1s, h2s = 2.0f * h1c * h1s;
  const float h3c = h2c * h1c - h2s * h1s, h3s = h2s * h1c + h2c * h1s;
  const float h4c = h2c * h2c - h2s * h2s, h4s = 2.0f * h2c * h2s;
  // 15; cosines and sines of 30°, 6°, 63° and 275°.
  const float t = 1.0f - 0.17f * (0.866025404f * h1c + 0.5f * h1s) + 0.24f * h2c + 0.32f * (0.994521895f * h3c - 0.104528463f * h3s) -
                  0.20f * (0.453990500f * h4c + 0.891006524f * h4s);
  const float from_275 = 0.0871557427f * h1c - 0.996194698f * h1s;

  const float mean_l50 = 0.5f * (L + c.L) - 50.0f, l2 = mean_l50 * mean_l50, mean_c = 0.5f * (c1 + c2);  // 12, 13
  const float sl = 1.0f + 0.015f * l2 / std::sqrt(20.0f + l2);                                   // 18
  const float sc = 1.0f + 0.045f * mean_c, sh = 1.0f + 0.015f * mean_c * t;                      // 19, 20
  const float rt = -2.0f * seventhShare(mean_c) * sineOfTwiceTheta(from_275);                    // 16, 17, 21
  const float l = (L - c.L) / sl, k = (c1 - c2) / sc, h = dH / sh;                               // 8, 9
  const float square = l * l + k * k + h * h + rt * k * h;                                       // 22
  return std::sqrt(square > 0.0f ? square : 0.0f);
}

[[gnu::always_inline]] inline void run(const Fixed& given, const float* xyz, float* out, std::size_t count) {
  const Fixed fixed = given;  // a copy that no store can reach
  std::array<float, kTile> x, y, z, d;
  for (std::size_t from = 0; from < count; from += kTile) {
    const std::size_t n = std::min(kTile, count - from);
    const float* in = xyz + 3 * from;
    for (std::size_t i = 0; i < n; ++i) {
      x[i] = in[3 * i];
      y[i] = in[3 * i + 1];
      z[i] = in[3 * i + 2];
    }
    std::fill(x.begin() + static_cast<std::ptrdiff_t>(n), x.end(), 0.0f);
    std::fill(y.begin() + static_cast<std::ptrdiff_t>(n), y.end(), 0.0f);
    std::fill(z.begin() + static_cast<std::ptrdiff_t>(n), z.end(), 0.0f);
    for (std::size_t i = 0; i < kTile; ++i) d[i] = difference(fixed, x[i], y[i], z[i]);  // a whole tile: vectorised by the compiler
    std::copy_n(d.begin(), n, out + from);
  }
}

void runPlain(const Fixed& fixed, const float* xyz, float* out, std::size_t count) { run(fixed, xyz, out, count); }

#if defined(__x86_64__) && defined(__GNUC__)
// Twice as many pixels at a time. Without fused products, so that the bits stay the same.
[[gnu::target("avx2")]] void runWide(const Fixed& fixed, const float* xyz, float* out, std::size_t count) { run(fixed, xyz, out, count); }
bool canWide() { return __builtin_cpu_supports("avx2") != 0; }
#else
void runWide(const Fixed& fixed, const float* xyz, float* out, std::size_t count) { run(fixed, xyz, out, count); }
bool canWide() { return false; }
#endif

}  // namespace

void deltaMap(std::span<const float> xyz, const Mat3& correction, const Lab<D50>& colour, std::span<float> de00) {
  constexpr Vec3 kWhiteD50 = kWhite<D50>;
  const Mat3 to_lab = Mat3::diagonal({1 / kWhiteD50[0], 1 / kWhiteD50[1], 1 / kWhiteD50[2]}) * correction;
  Fixed fixed;
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) fixed.to_lab[3 * r + c] = static_cast<float>(to_lab(r, c));
  fixed.L = static_cast<float>(colour.L);
  fixed.a = static_cast<float>(colour.a);
  fixed.b = static_cast<float>(colour.b);
  fixed.chroma = static_cast<float>(chroma(toVec(colour)));
  static const bool wide = canWide();
  (wide ? runWide : runPlain)(fixed, xyz.data(), de00.data(), std::min(xyz.size() / 3, de00.size()));
}

}  // namespace huewright
