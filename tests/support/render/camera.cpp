#include "render/camera.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <map>
#include <mutex>
#include <tuple>
#include <vector>

namespace huewright::render {
namespace {

// Least squares of out = G + m1·(R − G) + m2·(B − G), one output channel, so that the row m1, 1 − m1 − m2, m2 keeps neutrals.
Vec3 fitRow(const std::vector<Vec3>& raw, const std::vector<Vec3>& wanted, std::size_t channel) {
  double rr = 0, rb = 0, bb = 0, rt = 0, bt = 0;
  for (std::size_t i = 0; i < raw.size(); ++i) {
    const double r = raw[i][0] - raw[i][1], b = raw[i][2] - raw[i][1], t = wanted[i][channel] - raw[i][1];
    rr += r * r;
    rb += r * b;
    bb += b * b;
    rt += r * t;
    bt += b * t;
  }
  const double det = rr * bb - rb * rb;
  const double m1 = (bb * rt - rb * bt) / det, m2 = (rr * bt - rb * rt) / det;
  return {m1, 1 - m1 - m2, m2};
}

Mat3 fitMatrix(char camera, Space space, const Spectrum& light) {
  const Sensor sensor(camera, light);
  const Vec3 white_raw = sensor.raw(flat(1));
  const Primaries& p = primaries(space);
  const Mat3 to_output = inverse(rgbToXyz(p)) * bradford(whiteOf(light), toXyzAtUnitY(p.white));
  std::vector<Vec3> raw, wanted;
  for (const Spectrum& surface : surfaces190()) {
    const Vec3 r = sensor.raw(surface);
    raw.push_back({r[0] / white_raw[0], r[1] / white_raw[1], r[2] / white_raw[2]});
    wanted.push_back(to_output * xyzUnder(light, surface));
  }
  return {{fitRow(raw, wanted, 0), fitRow(raw, wanted, 1), fitRow(raw, wanted, 2)}};
}

// Square root of a positive number without a library call, so that a loop over a row becomes vector code. Accuracy: 5e-6 relative.
inline float quickRoot(float v) {
  float y = std::bit_cast<float>(0x5f3759dfU - (std::bit_cast<std::uint32_t>(v) >> 1));
  y *= 1.5f - 0.5f * v * y * y;
  y *= 1.5f - 0.5f * v * y * y;
  return v * y;
}

}  // namespace

const Primaries& primaries(Space space) { return space == Space::P3 ? kP3D65Primaries : kSrgbPrimaries; }

Sensor::Sensor(char camera, const Spectrum& light) : weight_(sensitivities(camera)) {
  double green = 0;
  for (Spectrum& w : weight_) w = light * w;
  for (const double v : weight_[1]) green += v;
  for (Spectrum& w : weight_) w = (1 / green) * w;
}

Vec3 Sensor::raw(const Spectrum& reflectance) const {
  Vec3 sum{};
  for (std::size_t i = 0; i < kBands; ++i)
    for (std::size_t c = 0; c < 3; ++c) sum[c] += weight_[c][i] * reflectance[i];
  return sum;
}

Mat3 cameraMatrix(char camera, Space space, double warm) {
  using Key = std::tuple<char, Space, bool>;
  static std::map<Key, Mat3> fitted;
  static std::mutex mutex;
  const std::lock_guard lock(mutex);
  const auto of = [&](bool is_warm) {
    const Key key{camera, space, is_warm};
    auto at = fitted.find(key);
    if (at == fitted.end()) at = fitted.emplace(key, fitMatrix(camera, space, illuminant(is_warm ? "A" : "D65"))).first;
    return at->second;
  };
  return (1 - warm) * of(false) + warm * of(true);
}

Mat3 colourMatrix(char camera) {
  const Vec3 white = Sensor(camera, illuminant("D65")).raw(flat(1));
  return Mat3::diagonal(white) * inverse(rgbToXyz(kSrgbPrimaries) * cameraMatrix(camera, Space::Srgb, 0));
}

Vec3 neutralOf(const Development& how) {
  const Vec3& g = how.gain;
  const double least = std::min({g[0], g[1], g[2]});
  return {least / g[0], least / g[1], least / g[2]};
}

double warmWeight(const Spectrum& light) {
  const double cool = 1 / 6504.0, warm = 1 / 2856.0;
  return std::clamp((1 / colourTemperature(light) - cool) / (warm - cool), 0.0, 1.0);
}

Development development(const Camera& camera, Space space, const Spectrum& light, const Vec3& grey_raw) {
  Vec3 reference = grey_raw;
  if (camera.balance != Balance::Grey)
    reference = Sensor(camera.sensitivity, camera.balance == Balance::Daylight ? illuminant("D65") : light).raw(flat(1));
  Vec3 gain{reference[1] / reference[0] * std::exp(camera.red_error), 1, reference[1] / reference[2] * std::exp(camera.blue_error)};
  gain = (1 / std::min({gain[0], gain[1], gain[2]})) * gain;
  const double warm = camera.warm_matrix < 0 ? warmWeight(light) : std::min(camera.warm_matrix, 1.0);
  const Mat3 matrix = camera.matrix ? cameraMatrix(camera.sensitivity, space, warm) : Mat3::identity();
  return {camera.exposure / gain[1], gain, matrix};
}

double noiseSd(const Camera& camera, double sensor_value) {
  if (camera.full_well <= 0) return 0;
  const double electrons = camera.full_well * 100 / camera.iso;
  const double read = camera.read_noise / electrons;
  return std::sqrt(std::max(sensor_value, 0.0) / electrons + read * read);
}

void develop(const Camera& camera, const Development& how, int width, std::span<float> rgb, Random& random) {
  const std::size_t row = static_cast<std::size_t>(width) * 3;
  const bool noisy = camera.full_well > 0;
  const double electrons = noisy ? camera.full_well * 100 / camera.iso : 1;
  const auto scale = static_cast<float>(how.to_sensor), shot = static_cast<float>(1 / electrons);
  const float read = static_cast<float>(camera.read_noise / electrons) * static_cast<float>(camera.read_noise / electrons);
  const auto keep = static_cast<float>(camera.noise_correlation);
  const float fresh = std::sqrt(1 - keep * keep);
  float gain[3], m[3][3];
  for (std::size_t r = 0; r < 3; ++r) {
    gain[r] = static_cast<float>(how.gain[r]);
    for (std::size_t c = 0; c < 3; ++c) m[r][c] = static_cast<float>(how.matrix(r, c));
  }
  std::vector<float> deviate(row + 4);
  for (std::size_t start = 0; start + row <= rgb.size(); start += row) {
    float* px = rgb.data() + start;
    if (noisy) {
      for (std::size_t i = 0; i < row; i += 4) random.normals4(deviate.data() + i);
      float r = deviate[0], g = deviate[1], b = deviate[2];
      for (std::size_t i = 3; keep > 0 && i < row; i += 3) {
        deviate[i] = r = keep * r + fresh * deviate[i];
        deviate[i + 1] = g = keep * g + fresh * deviate[i + 1];
        deviate[i + 2] = b = keep * b + fresh * deviate[i + 2];
      }
    }
    for (std::size_t i = 0; i < row; ++i) px[i] *= scale;
    if (noisy)
      for (std::size_t i = 0; i < row; ++i) px[i] += quickRoot(shot * (px[i] > 0 ? px[i] : 0) + read + 1e-20f) * deviate[i];
    for (std::size_t i = 0; i < row; i += 3) {
      const float r = std::min(gain[0] * std::min(px[i], 1.0f), 1.0f);
      const float g = std::min(gain[1] * std::min(px[i + 1], 1.0f), 1.0f);
      const float b = std::min(gain[2] * std::min(px[i + 2], 1.0f), 1.0f);
      for (std::size_t c = 0; c < 3; ++c) px[i + c] = m[c][0] * r + m[c][1] * g + m[c][2] * b;
    }
  }
}

void readOut(const Camera& camera, double to_sensor, std::span<float> rgb, Random& random) {
  const bool noisy = camera.full_well > 0;
  const double electrons = noisy ? camera.full_well * 100 / camera.iso : 1;
  const auto scale = static_cast<float>(to_sensor), shot = static_cast<float>(1 / electrons);
  const float read = static_cast<float>(camera.read_noise / electrons) * static_cast<float>(camera.read_noise / electrons);
  float deviate[4]{};
  for (std::size_t i = 0; i < rgb.size(); ++i) {
    if (noisy && i % 4 == 0) random.normals4(deviate);
    const float light = scale * rgb[i];
    rgb[i] = std::min(light + std::sqrt(shot * std::max(light, 0.0f) + read) * deviate[i % 4], 1.0f);
  }
}

}  // namespace huewright::render
