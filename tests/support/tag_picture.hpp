// A printed tag laid into a picture, made up, with the truth of where it lies. Drawn from its cells, not by the code that prints it.
#pragma once

#include <algorithm>
#include <cmath>
#include <random>
#include <utility>
#include <vector>

#include "colour/matrix.hpp"
#include "photo/photo.hpp"
#include "scene/tag_cells.hpp"

namespace huewright::fixtures {

struct TagPose {
  double side = 100;            ///< of the black frame, pixels, before the tilt
  double turn = 0;              ///< degrees, clockwise
  double tilt = 0;              ///< of its plane, degrees
  double towards = 0;           ///< the way in which it falls back, degrees
  Point middle{};               ///< pixels
};

/// Cells from the tag's top left corner to pixels. A pinhole with a focal length of 1200 pixels.
inline Mat3 tagHomography(const TagPose& pose) {
  constexpr double kFocal = 1200, kDegree = 0.017453292519943295;
  const double turn = pose.turn * kDegree, towards = pose.towards * kDegree, tilt = pose.tilt * kDegree;
  const double cell = pose.side / kTagAcross, half = 0.5 * kTagAcross;
  // In the plane: u, v about the tag's middle; the part along `towards` is shortened and falls back.
  const double c = std::cos(turn) * cell, s = std::sin(turn) * cell, tx = std::cos(towards), ty = std::sin(towards), shorter = std::cos(tilt) - 1;
  const auto plane = [&](double ux, double uy) {  // x, y and depth of a direction in the plane
    const double along = ux * tx + uy * ty;
    return Vec3{ux + shorter * along * tx, uy + shorter * along * ty, std::sin(tilt) * along / kFocal};
  };
  const Vec3 a = plane(c, s), b = plane(-s, c);
  Mat3 m;
  const auto put = [&](std::size_t column, const Vec3& v) {
    m(0, column) = v[0] + pose.middle.x * v[2];
    m(1, column) = v[1] + pose.middle.y * v[2];
    m(2, column) = v[2];
  };
  put(0, a);
  put(1, b);
  m(2, 2) = 1 - half * (a[2] + b[2]);
  m(0, 2) = -half * (a[0] + b[0]) + pose.middle.x * m(2, 2);
  m(1, 2) = -half * (a[1] + b[1]) + pose.middle.y * m(2, 2);
  return m;
}

inline Point tagPoint(const Mat3& m, double x, double y) {
  const Vec3 v = m * Vec3{x, y, 1};
  return {v[0] / v[2], v[1] / v[2]};
}

inline Quad tagQuad(const Mat3& m) {
  constexpr double kAll = kTagAcross;
  return {{{tagPoint(m, 0, 0), tagPoint(m, kAll, 0), tagPoint(m, kAll, kAll), tagPoint(m, 0, kAll)}}};
}

inline double toTagLight(double code) { return code <= 0.04045 * 255 ? code / 255 / 12.92 : std::pow((code / 255 + 0.055) / 1.055, 2.4); }
inline double toTagCode(double light) { return 255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055); }

/// Lays the tag with white paper of 2.2 cells round it. spoilt: cells that are shown the other way, as a stain or a scratch does.
inline void layTag(Preview& preview, const TagCells& inside, const Mat3& lie, double left = 1, const std::vector<std::pair<std::size_t, std::size_t>>& spoilt = {}) {
  auto cells = withFrames(inside);
  for (const auto& [x, y] : spoilt) cells[y][x] = !cells[y][x];
  constexpr double kPaperRound = 2.2, kAll = kTagAcross;
  constexpr int kFine = 4;
  const Mat3 back = inverse(lie);
  double x0 = 1e9, x1 = 0, y0 = 1e9, y1 = 0;
  for (const double x : {-kPaperRound, kAll + kPaperRound})
    for (const double y : {-kPaperRound, kAll + kPaperRound}) {
      const Point p = tagPoint(lie, x, y);
      x0 = std::min(x0, p.x), x1 = std::max(x1, p.x), y0 = std::min(y0, p.y), y1 = std::max(y1, p.y);
    }
  for (int y = std::max(0, static_cast<int>(y0)); y <= std::min(preview.size.height - 1, static_cast<int>(y1)); ++y)
    for (int x = std::max(0, static_cast<int>(x0)); x <= std::min(preview.size.width - 1, static_cast<int>(x1)); ++x) {
      double light = 0;
      int covered = 0;
      for (int i = 0; i < kFine * kFine; ++i) {
        const Point at = tagPoint(back, x + (i % kFine + 0.5) / kFine, y + (std::floor(i / kFine) + 0.5) / kFine);
        if (at.x < -kPaperRound || at.y < -kPaperRound || at.x > kAll + kPaperRound || at.y > kAll + kPaperRound) continue;
        const bool on = at.x >= 0 && at.y >= 0 && at.x < kAll && at.y < kAll;
        ++covered;
        light += left * (on && cells[static_cast<std::size_t>(at.y)][static_cast<std::size_t>(at.x)] ? 0.035 : 0.82);
      }
      for (std::size_t c = 0; c < 3 && covered > 0; ++c) {
        auto& code = preview.rgb[3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(preview.size.width) + static_cast<std::size_t>(x)) + c];
        const double share = static_cast<double>(covered) / (kFine * kFine);
        code = static_cast<std::uint8_t>(std::lround(toTagCode(light / (kFine * kFine) + (1 - share) * toTagLight(code))));
      }
    }
}

/// A rectangle round the tag and its white paper.
inline Rect tagBox(const Mat3& lie) {
  constexpr double kRound = 3.5, kAll = kTagAcross;
  return boundingBox({{{tagPoint(lie, -kRound, -kRound), tagPoint(lie, kAll + kRound, -kRound), tagPoint(lie, kAll + kRound, kAll + kRound), tagPoint(lie, -kRound, kAll + kRound)}}});
}

/// Blurs a rectangle of the picture in linear light (standard deviation in pixels) and adds noise in codes.
inline void blurTag(Preview& preview, const Rect& box, double blur, double noise, unsigned seed) {
  const Rect in = insidePicture(box, preview.size);
  const int reach = static_cast<int>(std::ceil(3 * blur));
  std::vector<double> weights;
  double sum = 0;
  for (int i = -reach; i <= reach; ++i) sum += weights.emplace_back(blur > 0 ? std::exp(-0.5 * i * i / (blur * blur)) : 1.0);
  const auto w = static_cast<std::size_t>(in.width), h = static_cast<std::size_t>(in.height);
  std::mt19937 random(seed);
  std::normal_distribution<double> normal(0, std::max(noise, 1e-9));
  for (std::size_t c = 0; c < 3; ++c) {
    const auto code = [&](std::size_t x, std::size_t y) -> std::uint8_t& {
      return preview.rgb[3 * ((static_cast<std::size_t>(in.y) + y) * static_cast<std::size_t>(preview.size.width) + static_cast<std::size_t>(in.x) + x) + c];
    };
    std::vector<double> light(w * h), across(w * h);
    for (std::size_t y = 0; y < h; ++y)
      for (std::size_t x = 0; x < w; ++x) light[y * w + x] = toTagLight(code(x, y));
    const auto near = [](std::size_t at, int by, std::size_t size) { return static_cast<std::size_t>(std::clamp<long>(static_cast<long>(at) + by, 0, static_cast<long>(size) - 1)); };
    for (std::size_t y = 0; y < h; ++y)
      for (std::size_t x = 0; x < w; ++x)
        for (int i = -reach; i <= reach; ++i) across[y * w + x] += weights[static_cast<std::size_t>(i + reach)] / sum * light[y * w + near(x, i, w)];
    for (std::size_t y = 0; y < h; ++y)
      for (std::size_t x = 0; x < w; ++x) {
        double value = 0;
        for (int i = -reach; i <= reach; ++i) value += weights[static_cast<std::size_t>(i + reach)] / sum * across[near(y, i, h) * w + x];
        code(x, y) = static_cast<std::uint8_t>(std::clamp(std::lround(toTagCode(value) + (noise > 0 ? normal(random) : 0)), 0L, 255L));
      }
  }
}

inline TagText exampleTag() { return {"frame 3", TagParts{1, 4}, 4, 5}; }

}  // namespace huewright::fixtures
