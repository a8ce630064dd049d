#include "camera/upright.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "camera/robust.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

/// From the unit square to a quad (Heckbert 1989, section 2.2.3).
class Unwarp {
 public:
  explicit Unwarp(const Quad& quad) {
    const auto& c = quad.corners;
    const double sx = c[0].x - c[1].x + c[2].x - c[3].x, sy = c[0].y - c[1].y + c[2].y - c[3].y;
    const double dx1 = c[1].x - c[2].x, dx2 = c[3].x - c[2].x, dy1 = c[1].y - c[2].y, dy2 = c[3].y - c[2].y;
    const double det = dx1 * dy2 - dx2 * dy1;
    const double g = det != 0 ? (sx * dy2 - dx2 * sy) / det : 0, h = det != 0 ? (dx1 * sy - sx * dy1) / det : 0;
    matrix_ = {{{{c[1].x - c[0].x + g * c[1].x, c[3].x - c[0].x + h * c[3].x, c[0].x},
                 {c[1].y - c[0].y + g * c[1].y, c[3].y - c[0].y + h * c[3].y, c[0].y},
                 {g, h, 1}}}};
  }
  /// x, y and their common divisor, as a row of constant v starts, and how they grow with u.
  Vec3 start(double v) const { return matrix_ * Vec3{0, v, 1}; }
  Vec3 growth() const { return {matrix_(0, 0), matrix_(1, 0), matrix_(2, 0)}; }
  Point operator()(double u, double v) const {
    const Vec3 at = start(v) + u * growth();
    return {at[0] / at[2], at[1] / at[2]};
  }

 private:
  Mat3 matrix_;
};

double pointDistance(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

/// What a sum of bilinear samples holds.
struct Sum {
  std::array<float, 3> xyz{};
  std::array<int, 6> clip{};
};

inline void addSample(const Raster& photo, Point at, Sum& sum) {
  const int width = photo.rect.width, height = photo.rect.height;
  const double x = std::clamp(at.x - photo.rect.x - 0.5, 0.0, width - 1.0), y = std::clamp(at.y - photo.rect.y - 0.5, 0.0, height - 1.0);
  const int left = std::min(static_cast<int>(x), std::max(0, width - 2)), top = std::min(static_cast<int>(y), std::max(0, height - 2));
  const auto fx = static_cast<float>(x - left), fy = static_cast<float>(y - top);
  const std::ptrdiff_t right = width > 1 ? 1 : 0, below = height > 1 ? width : 0, i = static_cast<std::ptrdiff_t>(top) * width + left;
  const float* p = photo.xyz.data() + 3 * i;
  for (std::size_t k = 0; k < 3; ++k, ++p) {
    const float upper = p[0] + fx * (p[3 * right] - p[0]), lower = p[3 * below] + fx * (p[3 * (below + right)] - p[3 * below]);
    sum.xyz[k] += upper + fy * (lower - upper);
  }
  const std::uint8_t bits = photo.clip[static_cast<std::size_t>(i + (fx > 0.5f ? right : 0) + (fy > 0.5f ? below : 0))];
  if (bits == 0) return;
  for (std::size_t k = 0; k < 6; ++k) sum.clip[k] += bits >> k & 1;
}

/// Samples a side of each pixel: as many as the photo's pixels that fall on it.
int samplesAcross(double photo_pixels, int pixels) { return std::clamp(static_cast<int>(std::ceil(photo_pixels / pixels - 0.1)), 1, 8); }

constexpr double kUprightRim = 0.4;      // of the shorter half-extent: how far in rings are looked at; the last is all the rest
constexpr double kRimAtMost = 0.25;      // of the luminance: a ring further off than that is no film's edge
constexpr std::size_t kRingBlocks = 12;  // fewer tell no median

/// Takes off what each ring's median says of the panel's edge, channel by channel. Rings are one block wide.
void levelRings(Grid& g, Size size) {
  const auto rings = static_cast<std::size_t>(kUprightRim * std::min(size.width, size.height) / 2 / g.side) + 1;
  const auto ringOf = [&](const Block& b) {
    const double x = b.x / b.count, y = b.y / b.count, far = std::min({x, y, size.width - x, size.height - y});
    return std::min(static_cast<std::size_t>(std::max(0.0, far / g.side)), rings - 1);
  };
  std::vector<std::array<std::vector<double>, 3>> values(rings);
  for (const std::size_t i : g.full) {
    const Vec3 xyz = g.blocks[i].mean();
    for (std::size_t k = 0; k < 3; ++k) values[ringOf(g.blocks[i])][k].push_back(xyz[k]);
  }
  if (values.back()[0].size() < kRingBlocks) return;
  const auto medians = [&](std::size_t ring) { return Vec3{medianOf(values[ring][0]), medianOf(values[ring][1]), medianOf(values[ring][2])}; };
  const Vec3 inner = medians(rings - 1);
  std::vector<Vec3> off(rings, Vec3{});
  for (std::size_t r = 0; r + 1 < rings; ++r) {
    if (values[r][0].size() < kRingBlocks) continue;
    const Vec3 d = medians(r) - inner;
    if (std::abs(d[1]) < kRimAtMost * inner[1]) off[r] = d;
  }
  for (const std::size_t i : g.full) g.blocks[i].xyz = g.blocks[i].xyz - g.blocks[i].count * off[ringOf(g.blocks[i])];
}

}  // namespace

Size uprightSize(const Quad& quad, int longest) {
  const auto& c = quad.corners;
  const double across = 0.5 * (pointDistance(c[0], c[1]) + pointDistance(c[3], c[2])), down = 0.5 * (pointDistance(c[0], c[3]) + pointDistance(c[1], c[2]));
  const double scale = std::min(1.0, longest / std::max({across, down, 1.0}));
  const auto whole = [scale](double v) { return std::max(1, static_cast<int>(std::lround(scale * v))); };
  return {whole(across), whole(down)};
}

Raster rectify(const Raster& photo, const Quad& quad, Size size) {
  const Unwarp unwarp(quad);
  const auto& c = quad.corners;
  const int across = samplesAcross(std::max(pointDistance(c[0], c[1]), pointDistance(c[3], c[2])), size.width);
  const int down = samplesAcross(std::max(pointDistance(c[0], c[3]), pointDistance(c[1], c[2])), size.height);
  const int samples = across * down;
  Raster out;
  out.rect = {0, 0, size.width, size.height};
  const auto pixels = static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height);
  out.xyz.reserve(3 * pixels);
  out.clip.reserve(pixels);
  std::vector<Sum> row(static_cast<std::size_t>(size.width));
  const Vec3 growth = unwarp.growth();
  for (int y = 0; y < size.height; ++y) {
    std::ranges::fill(row, Sum{});
    for (int j = 0; j < down; ++j) {
      const Vec3 start = unwarp.start((y + (j + 0.5) / down) / size.height);
      for (int i = 0; i < across * size.width; ++i) {
        const double u = (i + 0.5) / (across * size.width), w = 1 / (start[2] + u * growth[2]);
        addSample(photo, {w * (start[0] + u * growth[0]), w * (start[1] + u * growth[1])}, row[static_cast<std::size_t>(i / across)]);
      }
    }
    for (const Sum& sum : row) {
      for (const float v : sum.xyz) out.xyz.push_back(v / static_cast<float>(samples));
      unsigned bits = 0;
      for (std::size_t k = 0; k < 6; ++k) bits |= (4 * sum.clip[k] >= samples ? 1u : 0u) << k;
      out.clip.push_back(static_cast<std::uint8_t>(bits));
    }
  }
  return out;
}

std::vector<Point> uprightPlaces(const Quad& quad, Size size) {
  const Unwarp unwarp(quad);
  std::vector<Point> places;
  places.reserve(static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height));
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x) places.push_back(unwarp((x + 0.5) / size.width, (y + 0.5) / size.height));
  return places;
}

void correct(Raster& upright, const Quad& quad, const Correction& correction) {
  const Unwarp unwarp(quad);
  const int width = upright.rect.width, height = upright.rect.height;
  constexpr int kCells = 32;
  const int across = std::min(kCells, width), down = std::min(kCells, height);
  std::vector<Mat3> nodes;
  for (int j = 0; j <= down; ++j)
    for (int i = 0; i <= across; ++i) nodes.push_back(correction(unwarp(static_cast<double>(i) / across, static_cast<double>(j) / down)));
  float* p = upright.xyz.data();
  for (int y = 0; y < height; ++y) {
    const double v = (y + 0.5) / height * down;
    const int j = std::min(static_cast<int>(v), down - 1);
    const double fy = v - j;
    std::vector<Mat3> row;  // nodes of this row of pixels
    for (int i = 0; i <= across; ++i) {
      const auto at = static_cast<std::size_t>(j * (across + 1) + i);
      row.push_back((1 - fy) * nodes[at] + fy * nodes[at + static_cast<std::size_t>(across) + 1]);
    }
    for (int x = 0; x < width; ++x, p += 3) {
      const double u = (x + 0.5) / width * across;
      const int i = std::min(static_cast<int>(u), across - 1);
      const double fx = u - i;
      const Vec3 in{static_cast<double>(p[0]), static_cast<double>(p[1]), static_cast<double>(p[2])};
      const Vec3 to = (1 - fx) * (row[static_cast<std::size_t>(i)] * in) + fx * (row[static_cast<std::size_t>(i) + 1] * in);
      for (std::size_t k = 0; k < 3; ++k) p[k] = static_cast<float>(to[k]);
    }
  }
}

std::vector<Kept> keptPixels(const Raster& upright) {
  const Size size{upright.rect.width, upright.rect.height};
  Grid grid = makeGrid(upright, toQuad(upright.rect));
  std::vector<Kept> pixels(upright.clip.size(), Kept::Yes);
  if (grid.full.empty()) return pixels;
  levelRings(grid, size);
  const auto blocks = mask(grid);
  // Blocks of the last column and row may hold too few pixels to be judged: they go with their neighbours.
  const auto blockAt = [&](int column, int row) {
    const auto at = [&](int c, int r) { return blocks[static_cast<std::size_t>(r * grid.columns + c)]; };
    for (const auto& [c, r] : {std::array{column, row}, std::array{column - 1, row}, std::array{column, row - 1}, std::array{column - 1, row - 1}})
      if (c >= 0 && r >= 0 && at(c, r) != Kept::Outside) return at(c, r);
    return Kept::Yes;
  };
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x)
      pixels[static_cast<std::size_t>(y) * static_cast<std::size_t>(size.width) + static_cast<std::size_t>(x)] = blockAt(x / grid.side, y / grid.side);
  return pixels;
}

double mapSmoothing(Size size) { return std::max(1.0, std::max(size.width, size.height) / 150.0); }

void smooth(Raster& upright, std::span<const Kept> kept, double sd) {
  if (!(sd >= 0.3)) return;
  const auto width = static_cast<std::size_t>(upright.rect.width), height = static_cast<std::size_t>(upright.rect.height);
  const auto reach = static_cast<std::size_t>(std::ceil(3 * sd));
  std::vector<float> weights(reach + 1);
  for (std::size_t i = 0; i <= reach; ++i) weights[i] = static_cast<float>(std::exp(-0.5 * static_cast<double>(i * i) / (sd * sd)));

  // X, Y, Z and how much of them there is, each times the weight; first along the rows, then down the columns.
  std::vector<float> in(4 * width * height, 0.0f), across(in.size(), 0.0f), down(4 * width);
  for (std::size_t i = 0; i < width * height; ++i) {
    if (kept[i] != Kept::Yes) continue;
    for (std::size_t k = 0; k < 3; ++k) in[4 * i + k] = upright.xyz[3 * i + k];
    in[4 * i + 3] = 1;
  }
  for (std::size_t y = 0; y < height; ++y) {
    const float* from = in.data() + 4 * y * width;
    float* to = across.data() + 4 * y * width;
    for (std::size_t x = 0; x < width; ++x) {
      const std::size_t first = x > reach ? x - reach : 0, last = std::min(width - 1, x + reach);
      for (std::size_t s = first; s <= last; ++s) {
        const float w = weights[s > x ? s - x : x - s];
        for (std::size_t k = 0; k < 4; ++k) to[4 * x + k] += w * from[4 * s + k];
      }
    }
  }
  for (std::size_t y = 0; y < height; ++y) {
    std::ranges::fill(down, 0.0f);
    const std::size_t first = y > reach ? y - reach : 0, last = std::min(height - 1, y + reach);
    for (std::size_t s = first; s <= last; ++s) {
      const float w = weights[s > y ? s - y : y - s];
      const float* from = across.data() + 4 * s * width;
      for (std::size_t i = 0; i < 4 * width; ++i) down[i] += w * from[i];
    }
    for (std::size_t x = 0; x < width; ++x) {
      if (kept[y * width + x] != Kept::Yes) continue;
      for (std::size_t k = 0; k < 3; ++k) upright.xyz[3 * (y * width + x) + k] = down[4 * x + k] / down[4 * x + 3];
    }
  }
}

std::vector<std::uint8_t> srgbCodes(const Raster& raster) {
  // The light at which each code begins: a table of the inverse curve is exact and quicker than a power for each channel.
  static const auto kFrom = [] {
    std::array<float, 255> from;
    for (std::size_t i = 0; i < from.size(); ++i) from[i] = static_cast<float>(srgbToLinear((static_cast<double>(i) + 0.5) / 255));
    return from;
  }();
  std::array<float, 9> to_rgb{};
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) to_rgb[3 * r + c] = static_cast<float>(kXyzD50ToSrgb(r, c));
  std::vector<std::uint8_t> codes;
  codes.reserve(raster.xyz.size());
  for (std::size_t i = 0; i + 2 < raster.xyz.size(); i += 3) {
    const float* p = raster.xyz.data() + i;
    for (std::size_t r = 0; r < 3; ++r) {
      const float light = to_rgb[3 * r] * p[0] + to_rgb[3 * r + 1] * p[1] + to_rgb[3 * r + 2] * p[2];
      codes.push_back(static_cast<std::uint8_t>(std::ranges::upper_bound(kFrom, light) - kFrom.begin()));
    }
  }
  return codes;
}

}  // namespace huewright
