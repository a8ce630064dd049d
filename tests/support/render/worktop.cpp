// The bench under the things: cloth, card, paper or wood. All spectra and textures are invented.
#include <algorithm>
#include <cmath>

#include "render/canvas.hpp"
#include "render/texture.hpp"

namespace huewright::render {
namespace {

struct Stuff {
  Spectrum dark, light;
};

Stuff stuffOf(Bench bench) {
  switch (bench) {
    case Bench::DarkCloth: return {0.038 * flat(1) + 0.010 * bump(450, 60), 0.085 * flat(1) + 0.012 * bump(450, 60)};
    case Bench::GreyCard: return {0.27 * flat(1) + 0.012 * step(560, 60), 0.33 * flat(1) + 0.014 * step(560, 60)};
    case Bench::WhitePaper: return {0.80 * step(395, 9), 0.86 * step(395, 9)};
    case Bench::Wood: return {0.075 * flat(1) + 0.17 * step(585, 42), 0.17 * flat(1) + 0.30 * step(560, 48)};
  }
  return {};
}

void add(std::vector<float>& sum, float weight, const std::vector<float>& field) {
  for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += weight * field[i];
}

// Boards that run from left to right, each with a grain and a tone of its own, and a dark joint between them.
std::vector<float> woodField(int w, int h, Random& random) {
  std::vector<float> grain = smoothField(w, h, 210, 7, random);
  for (float& v : grain) v *= 0.085f;
  add(grain, 0.075f, smoothField(w, h, 75, 2.4, random));
  add(grain, 0.050f, smoothField(w, h, 19, 1.2, random));
  add(grain, 0.07f, smoothField(w, h, 300, 52, random));
  const auto pores = smoothField(w, h, 9, 1.0, random);
  const auto bend = smoothField(w, h, 150, 60, random);
  const auto speck = whiteField(w, h, random);
  std::vector<float> field(grain.size());
  const double board = h / 3.6;
  double top = -board * random.uniform(0.2, 0.8);
  while (top < h) {
    const auto tone = static_cast<float>(0.55 + random.uniform(-0.12, 0.12));
    const int shift = random.below(h);
    for (int y = std::max(0, static_cast<int>(std::ceil(top))); y < std::min(h, static_cast<int>(std::ceil(top + board))); ++y) {
      const double from_joint = y + 0.5 - top;
      const double groove = std::exp(-0.5 * from_joint * from_joint / 1.3), rim = std::exp(-0.1 * (from_joint - 4) * (from_joint - 4));
      const auto joint = static_cast<float>(0.10 * rim - 0.75 * groove);
      for (int x = 0; x < w; ++x) {
        const std::size_t i = static_cast<std::size_t>(y) * w + x;
        const int bent = (y + shift + static_cast<int>(4.5f * bend[i] + 40)) % h;
        field[i] = tone + joint + grain[static_cast<std::size_t>(bent) * w + x] - (pores[i] > 1.7f ? 0.13f : 0.0f) + 0.022f * speck[i];
      }
    }
    top += board;
  }
  return field;
}

std::vector<float> fieldOf(Bench bench, int w, int h, Random& random) {
  switch (bench) {
    case Bench::DarkCloth: {
      auto field = smoothField(w, h, 2.2, 2.2, random);
      for (float& v : field) v = 0.5f + 0.16f * v;
      add(field, 0.14f, smoothField(w, h, 4.5, 1.2, random));
      add(field, 0.10f, smoothField(w, h, 120, 90, random));
      return field;
    }
    case Bench::Wood: return woodField(w, h, random);
    case Bench::GreyCard:
    case Bench::WhitePaper: break;
  }
  auto field = smoothField(w, h, 90, 90, random);
  for (float& v : field) v = 0.5f + 0.10f * v;
  add(field, 0.06f, smoothField(w, h, 1.8, 1.8, random));
  return field;
}

}  // namespace

void Canvas::paintBench(Bench bench, Random random) {
  const int w = size_.width, h = size_.height;
  const Stuff stuff = stuffOf(bench);
  const Raw dark = eye_.see(stuff.dark), light = eye_.see(stuff.light);
  const bool slanted = bench == Bench::Wood;
  // The plane reaches beyond the picture where the camera looks at it aslant.
  const int margin = slanted ? w / 16 : 0, field_w = w + 2 * margin, field_h = h + 2 * margin;
  const auto field = fieldOf(bench, field_w, field_h, random);
  const Mat3& back = perspective_.backward();
  for (int y = 0; y < h; ++y)
    for (int x = 0; x < w; ++x) {
      float t = 0;
      if (slanted) {
        const Vec3 at_pixel{x + 0.5, y + 0.5, 1};
        const double far = 1 / dot(back.row[2], at_pixel);
        const Point p{dot(back.row[0], at_pixel) * far, dot(back.row[1], at_pixel) * far};
        const double px = std::clamp(p.x + margin - 0.5, 0.0, field_w - 1.001);
        const double py = std::clamp(p.y + margin - 0.5, 0.0, field_h - 1.001);
        const auto column = static_cast<std::size_t>(px), row = static_cast<std::size_t>(py);
        const auto fx = static_cast<float>(px - static_cast<double>(column));
        const auto fy = static_cast<float>(py - static_cast<double>(row));
        const float* a = field.data() + row * static_cast<std::size_t>(field_w) + column;
        const float* b = a + field_w;
        t = (1 - fy) * (a[0] + fx * (a[1] - a[0])) + fy * (b[0] + fx * (b[1] - b[0]));
      } else {
        t = field[static_cast<std::size_t>(y) * static_cast<std::size_t>(w) + static_cast<std::size_t>(x)];
      }
      t = std::clamp(t, -0.2f, 1.3f);
      const Level level = light_.at(x + 0.5, y + 0.5);
      const auto first = static_cast<float>(level.first), second = static_cast<float>(level.second);
      float* out = at(x, y);
      for (std::size_t c = 0; c < 3; ++c)
        out[c] = first * (dark.first[c] + t * (light.first[c] - dark.first[c])) +
                 second * (dark.second[c] + t * (light.second[c] - dark.second[c]));
    }
}

}  // namespace huewright::render
