#include "support/chart_picture.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "colour/rgb.hpp"

namespace huewright::fixtures {
namespace {

constexpr double kFocal = 0.9;
constexpr int kFine = 3;  // places along a pixel's side

double radians(double degrees) { return degrees * std::numbers::pi / 180; }
double uniform(std::mt19937_64& random) { return static_cast<double>(random() >> 11) * 0x1p-53; }
double between(std::mt19937_64& random, double low, double high) { return low + (high - low) * uniform(random); }

Point through(const Mat3& h, Point p) {
  const Vec3 v = h * Vec3{p.x, p.y, 1};
  return {v[0] / v[2], v[1] / v[2]};
}

/// srgbFromLinear by a table over the root of the light, within 0.0002.
double codeOf(double light) {
  static const std::vector<double> kCodes = [] {
    std::vector<double> codes(4097);
    for (std::size_t i = 0; i < codes.size(); ++i) codes[i] = srgbFromLinear(static_cast<double>(i * i) / (4096.0 * 4096));
    return codes;
  }();
  return kCodes[static_cast<std::size_t>(4096 * std::sqrt(std::clamp(light, 0.0, 1.0)) + 0.5)];
}

double lightOf(double code) {
  static const std::vector<double> kLight = [] {
    std::vector<double> light(4097);
    for (std::size_t i = 0; i < light.size(); ++i) light[i] = srgbToLinear(static_cast<double>(i) / 4096);
    return light;
  }();
  return kLight[static_cast<std::size_t>(4096 * std::clamp(code, 0.0, 1.0) + 0.5)];
}

std::array<double, 4> boxOf(const Mat3& h, double left, double top, double right, double bottom) {
  std::array<double, 4> box{1e9, 1e9, -1e9, -1e9};
  for (const Point& corner : {Point{left, top}, Point{right, top}, Point{right, bottom}, Point{left, bottom}}) {
    const Point p = through(h, corner);
    box = {std::min(box[0], p.x), std::min(box[1], p.y), std::max(box[2], p.x), std::max(box[3], p.y)};
  }
  return box;
}

}  // namespace

Mat3 chartHomography(const ChartPose& pose, Size picture, int columns, int rows) {
  const auto turned = [](double degrees) {
    const double c = std::cos(radians(degrees)), s = std::sin(radians(degrees));
    return Mat3{{{{c, -s, 0}, {s, c, 0}, {0, 0, 1}}}};
  };
  const double c = std::cos(radians(pose.tilt)), s = std::sin(radians(pose.tilt));
  const Mat3 back{{{{c, 0, s}, {0, 1, 0}, {-s, 0, c}}}};
  const Mat3 rotation = turned(pose.towards) * back * turned(pose.turn - pose.towards);
  const double focal = kFocal * std::max(picture.width, picture.height);
  const auto at = [&](double distance) {
    Mat3 h;
    for (std::size_t r = 0; r < 3; ++r) {
      h(r, 0) = rotation(r, 0);
      h(r, 1) = rotation(r, 1);
      h(r, 2) = -rotation(r, 0) * columns / 2 - rotation(r, 1) * rows / 2 + (r == 2 ? distance : 0);
    }
    return Mat3::diagonal({focal, focal, 1}) * h;
  };
  double near = std::hypot(columns, rows), far = 1000 * near;
  for (int i = 0; i < 80; ++i) {
    const double middle = 0.5 * (near + far);
    const auto b = boxOf(at(middle), 0, 0, columns, rows);
    ((b[2] - b[0] > pose.width * picture.width || b[3] - b[1] > 0.85 * picture.height) ? near : far) = middle;
  }
  const Mat3 h = at(far);
  const auto b = boxOf(h, 0, 0, columns, rows);
  return Mat3{{{{1, 0, pose.middle.x * picture.width - 0.5 * (b[0] + b[2])}, {0, 1, pose.middle.y * picture.height - 0.5 * (b[1] + b[3])}, {0, 0, 1}}}} * h;
}

ChartPose randomChartPose(std::mt19937_64& random, double most_tilt) {
  ChartPose pose;
  pose.turn = between(random, 0, 360);
  pose.tilt = between(random, 0, most_tilt);
  pose.towards = between(random, 0, 360);
  pose.width = between(random, 0.12, 0.6);
  const double room_x = 0.5 - 0.56 * pose.width, room_y = std::max(0.04, 0.5 - 0.85 * pose.width);
  pose.middle = {0.5 + between(random, -room_x, room_x), 0.5 + 0.5 * between(random, -room_y, room_y)};
  return pose;
}

std::vector<Vec3> chartLight(const ChartReference& reference) {
  std::vector<Vec3> all;
  for (const ChartPatch& patch : reference.patches) {
    const LinearSrgb rgb = toLinearSrgb(toXyz(patch.lab));
    all.push_back({std::max(0.0, rgb.r), std::max(0.0, rgb.g), std::max(0.0, rgb.b)});
  }
  return all;
}

ChartPicture::ChartPicture(Size size, std::uint64_t seed) : size_(size), seed_(seed), light_(static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height)) {
  std::mt19937_64 random(seed * 7919 + 3);
  const double grain = between(random, 0, 0.15);
  const Vec3 bench{between(random, 0.05, 0.6), between(random, 0.05, 0.5), between(random, 0.05, 0.5)};
  for (Vec3& pixel : light_) pixel = (1 + grain * (uniform(random) - 0.5)) * bench;
  const int things = static_cast<int>(between(random, 10, 40));
  for (int i = 0; i < things; ++i) {
    const double w = between(random, 0.01, 0.12) * size.width, h = between(random, 0.01, 0.12) * size.width, turn = between(random, 0, std::numbers::pi);
    const Point at{between(random, 0, size.width), between(random, 0, size.height)}, u{std::cos(turn), std::sin(turn)};
    const Vec3 light{between(random, 0.02, 0.9), between(random, 0.02, 0.9), between(random, 0.02, 0.9)};
    // Some come in rows, like keys, tiles and labels.
    const int row = i % 5 == 0 ? static_cast<int>(between(random, 2, 9)) : 1;
    for (int k = 0; k < row; ++k) {
      const double along = k * 1.2 * w;
      const auto corner = [&](double x, double y) { return Point{at.x + (x + along) * u.x - y * u.y, at.y + (x + along) * u.y + y * u.x}; };
      cover({{{corner(0, 0), corner(w, 0), corner(w, h), corner(0, h)}}}, light);
    }
  }
}

void ChartPicture::lay(const std::vector<Vec3>& patches, const Mat3& homography, const ChartLook& look, int columns, int rows) {
  const Mat3 back = inverse(homography);
  const auto box = boxOf(homography, -look.margin, -look.margin, columns + look.margin, rows + look.margin);
  const int left = std::max(0, static_cast<int>(box[0]) - 1), right = std::min(size_.width, static_cast<int>(box[2]) + 2);
  const int top = std::max(0, static_cast<int>(box[1]) - 1), bottom = std::min(size_.height, static_cast<int>(box[3]) + 2);
  for (int y = top; y < bottom; ++y)
    for (int x = left; x < right; ++x) {
      Vec3& pixel = light_[static_cast<std::size_t>(y) * static_cast<std::size_t>(size_.width) + static_cast<std::size_t>(x)];
      Vec3 sum{};
      for (int fine = 0; fine < kFine * kFine; ++fine) {
        const Point at = through(back, {x + (fine % kFine + 0.5) / kFine, y + (fine / kFine + 0.5) / kFine});
        if (at.x < -look.margin || at.y < -look.margin || at.x > columns + look.margin || at.y > rows + look.margin) {
          sum = sum + pixel;
          continue;
        }
        const double column = std::floor(at.x), row = std::floor(at.y);
        const bool on = column >= 0 && row >= 0 && column < columns && row < rows && std::abs(at.x - column - 0.5) < 0.5 * look.share && std::abs(at.y - row - 0.5) < 0.5 * look.share;
        sum = sum + (on ? patches[static_cast<std::size_t>(row * columns + column)] : look.frame);
      }
      pixel = 1.0 / (kFine * kFine) * sum;
    }
}

void ChartPicture::cover(const Quad& quad, Vec3 light) {
  const Rect box = boundingBox(quad);
  for (int y = std::max(0, box.y); y < std::min(size_.height, box.y + box.height); ++y)
    for (int x = std::max(0, box.x); x < std::min(size_.width, box.x + box.width); ++x)
      if (contains(quad, {x + 0.5, y + 0.5})) light_[static_cast<std::size_t>(y) * static_cast<std::size_t>(size_.width) + static_cast<std::size_t>(x)] = light;
}

void ChartPicture::glare(Point at, double radius, double light) {
  const double reach = 2 * radius;
  for (int y = std::max(0, static_cast<int>(at.y - reach)); y < std::min<int>(size_.height, static_cast<int>(at.y + reach)); ++y)
    for (int x = std::max(0, static_cast<int>(at.x - reach)); x < std::min<int>(size_.width, static_cast<int>(at.x + reach)); ++x) {
      const double away = std::hypot(x + 0.5 - at.x, y + 0.5 - at.y) / radius;
      const double add = light * std::exp(-away * away * away * away);
      Vec3& pixel = light_[static_cast<std::size_t>(y) * static_cast<std::size_t>(size_.width) + static_cast<std::size_t>(x)];
      pixel = pixel + Vec3{add, add, add};
    }
}

void ChartPicture::fallOff(double by, double direction) {
  const double dx = std::cos(radians(direction)), dy = std::sin(radians(direction));
  const double reach = std::abs(dx) * size_.width + std::abs(dy) * size_.height;
  for (int y = 0; y < size_.height; ++y)
    for (int x = 0; x < size_.width; ++x) {
      Vec3& pixel = light_[static_cast<std::size_t>(y) * static_cast<std::size_t>(size_.width) + static_cast<std::size_t>(x)];
      pixel = (1 - by * (0.5 + (dx * (x - 0.5 * size_.width) + dy * (y - 0.5 * size_.height)) / reach)) * pixel;
    }
}

void ChartPicture::mirror() {
  for (int y = 0; y < size_.height; ++y) {
    const auto row = light_.begin() + static_cast<std::ptrdiff_t>(y) * size_.width;
    std::reverse(row, row + size_.width);
  }
}

void ChartPicture::develop(Vec3 gains, double contrast, double colour) {
  for (Vec3& pixel : light_) {
    const double grey = (pixel[0] + pixel[1] + pixel[2]) / 3;
    for (std::size_t c = 0; c < 3; ++c) {
      const double code = codeOf(gains[c] * (grey + colour * (pixel[c] - grey)));
      pixel[c] = lightOf(code + contrast * 0.35 * (code * code * (3 - 2 * code) - code));
    }
  }
}

std::vector<std::uint8_t> ChartPicture::codes(double blur, double noise) const {
  using Soft = std::array<float, 3>;
  std::vector<Soft> soft;
  soft.reserve(light_.size());
  for (const Vec3& pixel : light_) soft.push_back({static_cast<float>(pixel[0]), static_cast<float>(pixel[1]), static_cast<float>(pixel[2])});
  if (blur > 0) {
    const int reach = static_cast<int>(std::ceil(3 * blur));
    std::vector<float> kernel;
    double all = 0;
    for (int k = -reach; k <= reach; ++k) all += std::exp(-0.5 * k * k / (blur * blur));
    for (int k = -reach; k <= reach; ++k) kernel.push_back(static_cast<float>(std::exp(-0.5 * k * k / (blur * blur)) / all));
    std::vector<Soft> line;
    const auto pass = [&](int count, int length, int step, int next) {
      line.resize(static_cast<std::size_t>(length + 2 * reach));
      for (int i = 0; i < count; ++i) {
        for (int k = -reach; k < length + reach; ++k) line[static_cast<std::size_t>(k + reach)] = soft[static_cast<std::size_t>(i * next + std::clamp(k, 0, length - 1) * step)];
        for (int k = 0; k < length; ++k) {
          Soft sum{};
          for (std::size_t j = 0; j < kernel.size(); ++j) {
            const Soft& from = line[static_cast<std::size_t>(k) + j];
            for (std::size_t c = 0; c < 3; ++c) sum[c] += kernel[j] * from[c];
          }
          soft[static_cast<std::size_t>(i * next + k * step)] = sum;
        }
      }
    };
    pass(size_.height, size_.width, 1, size_.width);
    pass(size_.width, size_.height, size_.width, 1);
  }
  std::mt19937 random(static_cast<std::uint32_t>(seed_ * 31 + 7));
  std::normal_distribution<float> normal(0, 1);
  std::vector<float> noises(1U << 14);
  for (float& n : noises) n = normal(random);
  std::vector<std::uint8_t> out;
  out.reserve(3 * soft.size());
  for (const Soft& pixel : soft)
    for (std::size_t c = 0; c < 3; ++c)
      out.push_back(static_cast<std::uint8_t>(std::clamp(255 * codeOf(static_cast<double>(pixel[c])) + noise * static_cast<double>(noises[random() % noises.size()]) + 0.5, 0.0, 255.0)));
  return out;
}

Photo photoOf(Size size, const std::vector<std::uint8_t>& codes) {
  std::array<double, 256> light{};
  for (std::size_t i = 0; i < light.size(); ++i) light[i] = srgbToLinear(static_cast<double>(i) / 255);
  std::vector<float> xyz;
  xyz.reserve(codes.size());
  for (std::size_t i = 0; i + 2 < codes.size(); i += 3) {
    const Vec3 v = kSrgbToXyzD50 * Vec3{light[codes[i]], light[codes[i + 1]], light[codes[i + 2]]};
    for (const double value : v) xyz.push_back(static_cast<float>(value));
  }
  return Photo::fromMemory(size, std::move(xyz));
}

}  // namespace huewright::fixtures
