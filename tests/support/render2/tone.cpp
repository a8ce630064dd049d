#include "render2/tone.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "colour/rgb.hpp"

namespace huewright::render2 {
namespace {

constexpr std::array kKnots{0.0, 0.2, 0.46, 0.75, 1.0};

// A cubic Hermite spline through the knots with Fritsch and Carlson's (1980) slopes as harmonic means: monotone where the values are.
double hermite(const std::array<double, 5>& value, double at) {
  std::array<double, 4> chord{};
  for (std::size_t i = 0; i < 4; ++i) chord[i] = (value[i + 1] - value[i]) / (kKnots[i + 1] - kKnots[i]);
  std::array<double, 5> slope{};
  slope[0] = chord[0];
  slope[4] = chord[3];
  for (std::size_t i = 1; i < 4; ++i) slope[i] = 2 * chord[i - 1] * chord[i] / (chord[i - 1] + chord[i]);
  std::size_t n = 0;
  while (n < 3 && at > kKnots[n + 1]) ++n;
  const double width = kKnots[n + 1] - kKnots[n], t = (at - kKnots[n]) / width, u = 1 - t;
  return value[n] * (1 + 2 * t) * u * u + width * slope[n] * t * u * u + value[n + 1] * t * t * (3 - 2 * t) - width * slope[n + 1] * t * t * u;
}

double filmic(double y) {
  const auto f = [](double x) { return x * (1.9 * x + 0.10) / (x * (1.25 * x + 0.62) + 0.032); };
  return f(y) / f(1);
}

// How much a pixel's colour is of a sort: 1 in the middle of the sort's hues, 0 sixty degrees away.
float nearHue(float a, float b, float size, float cos_hue, float sin_hue) {
  const float along = (a * cos_hue + b * sin_hue) / size;
  return std::clamp(2 * along - 1, 0.0f, 1.0f);
}

void boxMean(int width, int height, int reach, std::vector<float>& field) {
  std::vector<float> line;
  const auto pass = [&](int count, std::ptrdiff_t stride, float* at) {
    line.resize(static_cast<std::size_t>(count));
    double sum = 0;
    int low = 0, high = 0;
    for (int i = 0; i < count; ++i) {
      for (; high < std::min(count, i + reach + 1); ++high) sum += static_cast<double>(at[high * stride]);
      for (; low < i - reach; ++low) sum -= static_cast<double>(at[low * stride]);
      line[static_cast<std::size_t>(i)] = static_cast<float>(sum / (high - low));
    }
    for (int i = 0; i < count; ++i) at[i * stride] = line[static_cast<std::size_t>(i)];
  };
  for (int y = 0; y < height; ++y) pass(width, 1, field.data() + static_cast<std::ptrdiff_t>(y) * width);
  for (int x = 0; x < width; ++x) pass(height, width, field.data() + x);
}

constexpr float kRed = 0.2126f, kGreen = 0.7152f, kBlue = 0.0722f;   // of luminance (IEC 61966-2-1)
float luminance(const float* px) { return kRed * px[0] + kGreen * px[1] + kBlue * px[2]; }

void sharpen(double amount, Size size, std::vector<float>& code) {
  const auto count = static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height);
  std::vector<float> luma(count);
  for (std::size_t i = 0; i < count; ++i) luma[i] = luminance(code.data() + 3 * i);
  std::vector<float> soft = luma;
  for (int i = 0; i < 2; ++i) boxMean(size.width, size.height, 1, soft);
  for (std::size_t i = 0; i < count; ++i) {
    const float more = std::clamp(static_cast<float>(amount) * (luma[i] - soft[i]), -0.08f, 0.08f);
    for (std::size_t c = 0; c < 3; ++c) code[3 * i + c] += more;
  }
}

}  // namespace

ToneSpec randomTone(Random& random) {
  ToneSpec t;
  const double kind = random.uniform();
  t.curve = kind < 0.15 ? Curve::Plain : kind < 0.65 ? Curve::Hermite : Curve::Filmic;
  t.contrast = random.uniform(0.15, 1);
  t.fade = random.uniform(0, 0.6);
  t.saturation = random.uniform(0.96, 1.2);
  t.warm_boost = random.uniform(-0.06, 0.12);
  t.cool_boost = random.uniform(-0.06, 0.15);
  t.green_boost = random.uniform(-0.08, 0.15);
  t.local = random.chance(0.25) ? random.uniform(0.08, 0.3) : 0;
  t.sharpening = random.uniform(0, 0.9);
  t.quality = 75 + random.below(21);
  t.full_chroma = random.chance(0.2);
  t.tagged = random.chance(0.75);
  return t;
}

double toneOf(const ToneSpec& tone, double y) {
  y = std::clamp(y, 0.0, 1.0);
  const double code = srgbFromLinear(y);
  if (tone.curve == Curve::Plain) return code;
  if (tone.curve == Curve::Filmic) return srgbFromLinear((1 - 0.5 * tone.contrast) * y + 0.5 * tone.contrast * filmic(y));
  const double k = tone.contrast;
  return hermite({0, 0.2 - 0.055 * k, 0.46 + 0.012 * k, 0.75 + 0.050 * k, 1}, code);
}

std::vector<float> drawnTogether(double strength, Size size, const std::vector<float>& linear) {
  constexpr int kStep = 4;
  constexpr float kEdge = 0.06f;   // variance of the logarithm below which a change is no edge
  const int w = (size.width + kStep - 1) / kStep, h = (size.height + kStep - 1) / kStep;
  std::vector<float> guide(static_cast<std::size_t>(w) * static_cast<std::size_t>(h));
  const auto logOf = [&](int x, int y) {
    const float* px = linear.data() + 3 * (static_cast<std::ptrdiff_t>(y) * size.width + x);
    return std::log(std::max(luminance(px), 0.0f) + 0.01f);
  };
  for (int y = 0; y < h; ++y)
    for (int x = 0; x < w; ++x) {
      float sum = 0;
      for (int dy = 0; dy < kStep; ++dy)
        for (int dx = 0; dx < kStep; ++dx) sum += logOf(std::min(kStep * x + dx, size.width - 1), std::min(kStep * y + dy, size.height - 1));
      guide[static_cast<std::size_t>(y) * static_cast<std::size_t>(w) + static_cast<std::size_t>(x)] = sum / (kStep * kStep);
    }
  const int reach = std::max(size.width / 20 / kStep, 1);
  std::vector<float> mean = guide, squares = guide;
  for (float& v : squares) v *= v;
  boxMean(w, h, reach, mean);
  boxMean(w, h, reach, squares);
  std::vector<float> slope(mean.size()), offset(mean.size());
  for (std::size_t i = 0; i < mean.size(); ++i) {
    const float variance = std::max(squares[i] - mean[i] * mean[i], 0.0f);
    slope[i] = variance / (variance + kEdge);
    offset[i] = (1 - slope[i]) * mean[i];
  }
  boxMean(w, h, reach, slope);
  boxMean(w, h, reach, offset);
  const double middle = std::log(0.19);
  const auto bilinear = [&](const std::vector<float>& field, int x, int y) {
    const float u = std::clamp((static_cast<float>(x) + 0.5f) / kStep - 0.5f, 0.0f, static_cast<float>(w - 1));
    const float v = std::clamp((static_cast<float>(y) + 0.5f) / kStep - 0.5f, 0.0f, static_cast<float>(h - 1));
    const int left = std::min(static_cast<int>(u), w - 2), top = std::min(static_cast<int>(v), h - 2);
    const float du = u - static_cast<float>(left), dv = v - static_cast<float>(top);
    const float* at = field.data() + static_cast<std::ptrdiff_t>(top) * w + left;
    return (1 - dv) * ((1 - du) * at[0] + du * at[1]) + dv * ((1 - du) * at[w] + du * at[w + 1]);
  };
  std::vector<float> out = linear;
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x) {
      const float large = bilinear(slope, x, y) * logOf(x, y) + bilinear(offset, x, y);
      const float gain = std::exp(static_cast<float>(strength) * (static_cast<float>(middle) - large));
      float* px = out.data() + 3 * (static_cast<std::ptrdiff_t>(y) * size.width + x);
      for (int c = 0; c < 3; ++c) px[c] *= gain;
    }
  return out;
}

std::vector<std::uint8_t> finished(const ToneSpec& tone, Size size, const std::vector<float>& linear) {
  std::vector<float> code = tone.local > 0 ? drawnTogether(tone.local, size, linear) : linear;
  constexpr int kSteps = 8192;
  std::vector<float> light(kSteps + 2), coded(kSteps + 2);   // tone-mapped luminance, and the sRGB curve
  for (int i = 0; i < kSteps + 2; ++i) {
    const double y = std::min(static_cast<double>(i) / kSteps, 1.0);
    light[static_cast<std::size_t>(i)] = static_cast<float>(srgbToLinear(toneOf(tone, y)));
    coded[static_cast<std::size_t>(i)] = static_cast<float>(srgbFromLinear(y));
  }
  const auto look = [](const std::vector<float>& table, float v) {
    // Square roots as places would be finer in the dark; 8192 steps keep the error there under half a code of 8 bits.
    const float at = std::clamp(v, 0.0f, 1.0f) * kSteps;
    const auto i = static_cast<std::size_t>(at);
    return table[i] + (at - static_cast<float>(i)) * (table[i + 1] - table[i]);
  };
  for (std::size_t i = 0; i + 2 < code.size(); i += 3) {
    float* px = code.data() + i;
    const float y = std::max(luminance(px), 1e-5f), toned = look(light, y), gain = toned / y;
    const float away = std::clamp((toned - 0.55f) / 0.45f, 0.0f, 1.0f);
    float keep = 1 - static_cast<float>(tone.fade) * away * away;
    const float a = px[0] - px[1], b = 0.5f * (px[0] + px[1]) - px[2], spread = std::sqrt(a * a + b * b);
    if (spread > 1e-5f) {
      // Red against green, yellow against blue: oranges lie between red and yellow, greens between yellow and green.
      const float boost = static_cast<float>(tone.warm_boost) * nearHue(a, b, spread, 0.8f, 0.6f) +
                          static_cast<float>(tone.cool_boost) * nearHue(a, b, spread, -0.3f, -0.954f) +
                          static_cast<float>(tone.green_boost) * nearHue(a, b, spread, -0.9f, 0.436f);
      keep *= static_cast<float>(tone.saturation) + boost * std::min(spread / y, 1.0f);
    }
    for (std::size_t c = 0; c < 3; ++c) px[c] = look(coded, toned + keep * (gain * px[c] - toned));
  }
  if (tone.sharpening > 0) sharpen(tone.sharpening, size, code);
  std::vector<std::uint8_t> bytes(code.size());
  for (std::size_t i = 0; i < code.size(); ++i) bytes[i] = static_cast<std::uint8_t>(std::clamp(code[i], 0.0f, 1.0f) * 255 + 0.5f);
  return bytes;
}

}  // namespace huewright::render2
