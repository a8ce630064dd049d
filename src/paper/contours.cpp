#include "paper/contours.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace huewright {

std::vector<std::vector<Point>> contours(Size size, std::span<const float> values, const std::vector<bool>& shown, double level) {
  const int w = size.width, h = size.height;
  const auto index = [&](int x, int y) { return static_cast<std::size_t>(y) * static_cast<std::size_t>(w) + static_cast<std::size_t>(x); };
  // An edge between two neighbours is named by the first of them and its direction. Every piece of line joins two edges.
  using Edge = std::size_t;
  const auto along = [&](int x, int y) { return 2 * index(x, y); };
  const auto down = [&](int x, int y) { return 2 * index(x, y) + 1; };
  const auto pointOn = [&](Edge edge) -> Point {
    const std::size_t i = edge / 2, j = i + (edge % 2 ? static_cast<std::size_t>(w) : 1);
    const double a = static_cast<double>(values[i]), b = static_cast<double>(values[j]), part = std::clamp((level - a) / (b - a), 0.0, 1.0);
    const auto width = static_cast<std::size_t>(w);
    const double x = static_cast<double>(i % width) + 0.5, y = static_cast<double>(i / width) + 0.5;
    return edge % 2 ? Point{x, y + part} : Point{x + part, y};
  };
  std::map<Edge, std::vector<Edge>> joins;
  const auto join = [&](Edge a, Edge b) {
    joins[a].push_back(b);
    joins[b].push_back(a);
  };
  for (int y = 0; y + 1 < h; ++y)
    for (int x = 0; x + 1 < w; ++x) {
      const std::array at{index(x, y), index(x + 1, y), index(x + 1, y + 1), index(x, y + 1)};
      if (!std::ranges::all_of(at, [&](std::size_t i) { return shown[i]; })) continue;
      std::array<bool, 4> above{};
      double mean = 0;
      for (std::size_t k = 0; k < 4; ++k) {
        above[k] = static_cast<double>(values[at[k]]) >= level;
        mean += static_cast<double>(values[at[k]]) / 4;
      }
      const std::array edges{along(x, y), down(x + 1, y), along(x, y + 1), down(x, y)};  // after corner 0, 1, 2, 3
      std::vector<Edge> cut;
      for (std::size_t k = 0; k < 4; ++k)
        if (above[k] != above[(k + 1) % 4]) cut.push_back(edges[k]);
      if (cut.size() == 2) join(cut[0], cut[1]);
      if (cut.size() == 4) {  // a saddle: the middle belongs to one of the two pairs of corners
        const bool round_first = above[0] != (mean >= level);
        join(cut[0], cut[round_first ? 3 : 1]);
        join(cut[2], cut[round_first ? 1 : 3]);
      }
    }
  std::vector<std::vector<Point>> lines;
  const auto follow = [&](Edge start) {
    std::vector<Point> line{pointOn(start)};
    for (Edge here = start; !joins[here].empty();) {
      const Edge next = joins[here].back();
      joins[here].pop_back();
      auto& back = joins[next];
      back.erase(std::ranges::find(back, here));
      line.push_back(pointOn(next));
      here = next;
    }
    lines.push_back(std::move(line));
  };
  std::vector<Edge> all;
  for (const auto& [edge, to] : joins) all.push_back(edge);
  for (const Edge edge : all)
    if (joins[edge].size() == 1) follow(edge);  // open lines from one of their ends
  for (const Edge edge : all)
    if (!joins[edge].empty()) follow(edge);
  return lines;
}

}  // namespace huewright
