// Paper on the bench, what is printed on it, and what has soiled it.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "render/canvas.hpp"
#include "render/texture.hpp"

namespace huewright::render {

void Canvas::paintPaper(const Quad& page, const PaperSpec& paper, const std::optional<Quad>& hole, Random random) {
  const Box box = boxOf(page, size_, 1);
  if (box.empty()) return;
  const Edges edges(page), hole_edges(hole.value_or(page));
  const Raw raw = eye_.see(paperBody(paper));
  std::vector<float> fibre;
  if (paper.fibre > 0) {
    fibre = smoothField(box.width(), box.height(), 1.8, 1.8, random);
    const auto clouds = smoothField(box.width(), box.height(), 11, 11, random);
    // The fields' own spread is 1.35; together they make `fibre`.
    const auto fine = static_cast<float>(0.665 * paper.fibre), coarse = static_cast<float>(0.322 * paper.fibre);
    for (std::size_t i = 0; i < fibre.size(); ++i) fibre[i] = 1 + fine * fibre[i] + coarse * clouds[i];
  }
  std::size_t i = 0;
  for (int row = box.top; row < box.bottom; ++row)
    for (int column = box.left; column < box.right; ++column, ++i) {
      const double x = column + 0.5, y = row + 0.5, inside = edges.inside(x, y);
      double share = std::clamp(inside + 0.5, 0.0, 1.0);
      if (hole) share *= 1 - std::clamp(hole_edges.inside(x, y) + 0.5, 0.0, 1.0);
      if (share <= 0) continue;
      const Level level = light_.at(x, y);
      const float gain = fibre.empty() ? 1.0f : fibre[i], cover = static_cast<float>(share);
      const float first = gain * static_cast<float>(level.first), second = gain * static_cast<float>(level.second);
      float* px = at(column, row);
      for (std::size_t c = 0; c < 3; ++c) px[c] += cover * (first * raw.first[c] + second * raw.second[c] - px[c]);
    }
}

void Canvas::print(const Mat3& sheet_to_picture, const MatRect& where, const Raw& ink, const std::function<double(Point)>& share) {
  const auto through = [](const Mat3& m, Point p) {
    const Vec3 v = m * Vec3{p.x, p.y, 1};
    return Point{v[0] / v[2], v[1] / v[2]};
  };
  Quad quad;
  const double right = where.x + where.width, bottom = where.y + where.height;
  const Point corners[] = {{where.x, where.y}, {right, where.y}, {right, bottom}, {where.x, bottom}};
  for (std::size_t k = 0; k < 4; ++k) quad.corners[k] = through(sheet_to_picture, corners[k]);
  const Mat3 back = inverse(sheet_to_picture);
  const Box box = boxOf(quad, size_, 1);
  constexpr int kParts = 4;   // of a pixel, each way
  for (int row = box.top; row < box.bottom; ++row)
    for (int column = box.left; column < box.right; ++column) {
      double sum = 0;
      for (int part = 0; part < kParts * kParts; ++part) {
        const Point mm = through(back, {column + (part % kParts + 0.5) / kParts, row + (part / kParts + 0.5) / kParts});
        if (mm.x >= where.x && mm.x <= right && mm.y >= where.y && mm.y <= bottom) sum += share(mm);
      }
      if (sum <= 0) continue;
      const auto cover = static_cast<float>(sum / (kParts * kParts));
      const Level level = light_.at(column + 0.5, row + 0.5);
      const auto first = static_cast<float>(level.first), second = static_cast<float>(level.second);
      float* px = at(column, row);
      for (std::size_t c = 0; c < 3; ++c) px[c] += cover * (first * ink.first[c] + second * ink.second[c] - px[c]);
    }
}

void Canvas::smudge(Point middle, double radius, double shape, double turn, const Vec3& keep, Random& random) {
  double wave[4][2];
  for (auto& w : wave) {
    w[0] = random.uniform(0.03, 0.11);
    w[1] = random.uniform(0, 2 * std::numbers::pi);
  }
  const int left = std::max(0, static_cast<int>(middle.x - radius)), right = std::min(size_.width, static_cast<int>(middle.x + radius) + 1);
  const int top = std::max(0, static_cast<int>(middle.y - radius)), bottom = std::min(size_.height, static_cast<int>(middle.y + radius) + 1);
  const double c = std::cos(turn), s = std::sin(turn);
  for (int row = top; row < bottom; ++row)
    for (int column = left; column < right; ++column) {
      const double dx = column + 0.5 - middle.x, dy = row + 0.5 - middle.y;
      const double u = c * dx + s * dy, v = (c * dy - s * dx) / shape, angle = std::atan2(v, u);
      double reach = 0.7 * radius;
      for (int k = 0; k < 4; ++k) reach *= 1 + wave[k][0] * std::sin((k + 1) * angle + wave[k][1]);
      const double part = smooth(2.5 * (1 - std::hypot(u, v) / std::min(reach, radius)));
      if (part <= 0) continue;
      float* px = at(column, row);
      for (std::size_t ch = 0; ch < 3; ++ch) px[ch] *= static_cast<float>(1 - part * (1 - keep[ch]));
    }
}

}  // namespace huewright::render
