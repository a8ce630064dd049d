#include "render2/camera.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "colour/rgb.hpp"
#include "render2/light.hpp"

namespace huewright::render2 {
namespace {

// A bell that falls off more slowly towards long waves: Gaussian in the logarithm of the wavelength.
Spectrum logBell(double peak_nm, double width) {
  return spectrumOf([=](double nm) {
    const double z = std::log(nm / peak_nm) / width;
    return std::exp(-0.5 * z * z);
  });
}

std::array<Spectrum, 3> makeCamera(char camera) {
  if (camera == 'f') {
    const Spectrum window = rise(403, 6) * (even(1) + (-1) * rise(655, 13));
    return {window * (0.80 * logBell(600, 0.056) + 0.13 * logBell(532, 0.070) + 0.05 * logBell(452, 0.055)),
            window * (0.98 * logBell(530, 0.074) + 0.05 * logBell(460, 0.060) + 0.06 * logBell(640, 0.040)),
            window * (0.70 * logBell(461, 0.062) + 0.14 * logBell(520, 0.060) + 0.02 * logBell(625, 0.050))};
  }
  const Spectrum window = rise(392, 10) * (even(1) + (-1) * rise(682, 18));
  return {window * (0.62 * hump(612, 30, 52) + 0.07 * hump(545, 30, 30) + 0.02 * hump(420, 25, 25)),
          window * (0.90 * hump(540, 38, 46) + 0.04 * hump(440, 30, 20)),
          window * (0.80 * hump(452, 32, 38) + 0.04 * hump(540, 30, 30))};
}

Mat3 toOutput(bool p3) { return inverse(rgbToXyz(p3 ? kP3D65Primaries : kSrgbPrimaries)); }

}  // namespace

const std::array<Spectrum, 3>& sensitivities(char camera) {
  static const std::array<Spectrum, 3> f = makeCamera('f'), g = makeCamera('g');
  if (camera == 'f') return f;
  if (camera == 'g') return g;
  throw std::invalid_argument(std::string("no such camera: ") + camera);
}

Sensor::Sensor(char camera, const Spectrum& reference) : curves_(sensitivities(camera)), scale_(1) {
  scale_ = 1 / raw(reference, even(1))[1];
}

Vec3 Sensor::raw(const Spectrum& light, const Spectrum& reflectance) const {
  Vec3 sum{};
  for (std::size_t i = 0; i < kBands; ++i)
    for (std::size_t c = 0; c < 3; ++c) sum[c] += curves_[c][i] * light[i] * reflectance[i];
  return scale_ * sum;
}

const std::vector<Spectrum>& trainingSurfaces() {
  static const std::vector<Spectrum> surfaces = [] {
    Random random(0x5eed0f5a11ULL);
    std::vector<Spectrum> all;
    for (int n = 0; n < 150; ++n) {
      // The logistic of a random, smooth curve: never outside 0..1, as bright or dark as it likes.
      const double level = random.uniform(-2.4, 1.4), slope = 0.7 * random.normal();
      std::array<double, 3> height{}, phase{};
      for (std::size_t k = 0; k < 3; ++k) {
        height[k] = 1.2 * random.normal() / static_cast<double>(k + 1);
        phase[k] = random.uniform(0, 6.283);
      }
      all.push_back(spectrumOf([&](double nm) {
        const double t = (nm - 560) / 160;
        double x = level + slope * t;
        for (std::size_t k = 0; k < 3; ++k) x += height[k] * std::cos((0.9 + 0.9 * static_cast<double>(k)) * 3.1 * t / 1.6 + phase[k]);
        return 0.03 + 0.9 / (1 + std::exp(-x));
      }));
    }
    return all;
  }();
  return surfaces;
}

Mat3 fittedMatrix(char camera, double kelvin, bool p3) {
  const Spectrum light = blackBody(kelvin);
  const Sensor sensor(camera, light);
  const Vec3 white = sensor.raw(light, even(1));
  const Mat3 to_output = toOutput(p3) * bradford(xyzBy(light, even(1)), toXyzAtUnitY(kSrgbPrimaries.white));
  Mat3 squares{}, products{};   // Σ raw·rawᵀ and Σ wanted·rawᵀ
  const auto add = [&](const Spectrum& s, double weight) {
    Vec3 raw = sensor.raw(light, s);
    for (std::size_t c = 0; c < 3; ++c) raw[c] /= white[c];
    squares = squares + weight * outer(raw, raw);
    products = products + weight * outer(to_output * xyzBy(light, s), raw);
  };
  for (const Spectrum& s : trainingSurfaces()) add(s, 1);
  add(even(1), 50);
  Mat3 m = products * inverse(squares);
  for (Vec3& row : m.row) row = (1 / (row[0] + row[1] + row[2])) * row;
  return m;
}

double noiseSd(const CameraSpec& camera, double value) {
  if (camera.full_well <= 0) return 0;
  const double electrons = camera.full_well * 100 / camera.iso, v = std::max(value, 0.0), read = camera.read_noise / electrons;
  return std::sqrt(v / electrons + read * read + camera.prnu * camera.prnu * v * v);
}

std::vector<float> mosaic(const CameraSpec& camera, Size size, const std::vector<float>& sensor, Random& random) {
  const auto width = static_cast<std::size_t>(size.width), height = static_cast<std::size_t>(size.height);
  std::vector<float> out(width * height);
  const bool noisy = camera.full_well > 0;
  const double electrons = noisy ? camera.full_well * 100 / camera.iso : 1;
  const auto shot = static_cast<float>(1 / electrons), response = static_cast<float>(camera.prnu);
  const float read = static_cast<float>(camera.read_noise / electrons) * static_cast<float>(camera.read_noise / electrons);
  float deviate[4]{};
  for (std::size_t y = 0; y < height; ++y) {
    const auto offset = noisy ? static_cast<float>(camera.banding / electrons * random.normal()) : 0.0f;
    for (std::size_t x = 0; x < width; ++x) {
      float v = sensor[3 * (y * width + x) + (y % 2 + x % 2)];
      if (noisy) {
        if (x % 2 == 0) random.normals4(deviate);
        const std::size_t of = 2 * (x % 2);
        v *= 1 + response * deviate[of];
        v += std::sqrt(shot * std::max(v, 0.0f) + read) * deviate[of + 1] + offset;
      }
      out[y * width + x] = std::min(v, 1.0f);
    }
  }
  return out;
}

std::vector<float> demosaiced(Size size, const std::vector<float>& m) {
  const int w = size.width, h = size.height;
  std::vector<float> rgb(3 * m.size());
  // Mirrored at the edges so that a pixel beyond keeps its colour.
  const auto at = [&](int x, int y) {
    x = x < 0 ? -x : x >= w ? 2 * w - 2 - x : x;
    y = y < 0 ? -y : y >= h ? 2 * h - 2 - y : y;
    return m[static_cast<std::size_t>(y) * static_cast<std::size_t>(w) + static_cast<std::size_t>(x)];
  };
  for (int y = 0; y < h; ++y)
    for (int x = 0; x < w; ++x) {
      float* px = rgb.data() + 3 * (static_cast<std::ptrdiff_t>(y) * w + x);
      const int own = y % 2 + x % 2;
      px[own] = at(x, y);
      if (own == 1) {
        const float sideways = 0.5f * (at(x - 1, y) + at(x + 1, y)), upward = 0.5f * (at(x, y - 1) + at(x, y + 1));
        px[0] = y % 2 == 0 ? sideways : upward;
        px[2] = y % 2 == 0 ? upward : sideways;
      } else {
        px[1] = 0.25f * (at(x - 1, y) + at(x + 1, y) + at(x, y - 1) + at(x, y + 1));
        px[2 - own] = 0.25f * (at(x - 1, y - 1) + at(x + 1, y - 1) + at(x - 1, y + 1) + at(x + 1, y + 1));
      }
    }
  return rgb;
}

void develop(const CameraSpec& camera, const Vec3& white_raw, double lamp_kelvin, std::vector<float>& rgb) {
  const double most = std::max({white_raw[0], white_raw[1], white_raw[2]});
  const Vec3 gain{most / white_raw[0] * std::exp(camera.red_error), most / white_raw[1], most / white_raw[2] * std::exp(camera.blue_error)};
  const double guessed = 1e6 / std::clamp(1e6 / lamp_kelvin + camera.guess_error, 120.0, 420.0);
  const Mat3 matrix = fittedMatrix(camera.letter, guessed, camera.p3) + camera.matrix_error;
  float m[3][3], g[3];
  for (std::size_t r = 0; r < 3; ++r) {
    g[r] = static_cast<float>(gain[r]);
    for (std::size_t c = 0; c < 3; ++c) m[r][c] = static_cast<float>(matrix(r, c));
  }
  for (std::size_t i = 0; i + 2 < rgb.size(); i += 3) {
    const float r = std::min(g[0] * rgb[i], 1.0f), gr = std::min(g[1] * rgb[i + 1], 1.0f), b = std::min(g[2] * rgb[i + 2], 1.0f);
    for (std::size_t c = 0; c < 3; ++c) rgb[i + c] = m[c][0] * r + m[c][1] * gr + m[c][2] * b;
  }
}

void blurred(Size size, double sigma, std::vector<float>& rgb) {
  if (sigma <= 0) return;
  std::array<float, 4> k{};
  float sum = 0;
  for (std::size_t i = 0; i < k.size(); ++i) {
    const auto z = static_cast<double>(i) / sigma;
    k[i] = static_cast<float>(std::exp(-0.5 * z * z));
    sum += i == 0 ? k[i] : 2 * k[i];
  }
  for (float& v : k) v /= sum;
  const auto pass = [&](std::ptrdiff_t count, std::ptrdiff_t stride, float* line) {
    static thread_local std::vector<float> in;
    in.resize(static_cast<std::size_t>(3 * (count + 6)));
    for (std::ptrdiff_t i = -3; i < count + 3; ++i)
      std::copy_n(line + std::clamp<std::ptrdiff_t>(i, 0, count - 1) * stride, 3, in.data() + 3 * (i + 3));
    for (std::ptrdiff_t i = 0; i < count; ++i)
      for (std::ptrdiff_t c = 0; c < 3; ++c) {
        const float* at = in.data() + 3 * (i + 3) + c;
        line[i * stride + c] = k[0] * at[0] + k[1] * (at[-3] + at[3]) + k[2] * (at[-6] + at[6]) + k[3] * (at[-9] + at[9]);
      }
  };
  for (std::ptrdiff_t y = 0; y < size.height; ++y) pass(size.width, 3, rgb.data() + 3 * y * size.width);
  for (std::ptrdiff_t x = 0; x < size.width; ++x) pass(size.height, 3 * static_cast<std::ptrdiff_t>(size.width), rgb.data() + 3 * x);
}

}  // namespace huewright::render2
