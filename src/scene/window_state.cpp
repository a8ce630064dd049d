#include "scene/window_state.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

// The ring of blank paper, as shares of the layout's least clear width: off the edge, where a panel may stop a little outside, and short of the dots.
constexpr double kRingInner = 0.08, kRingOuter = 0.38;
constexpr double kCorners = 0.12;      // share of a side next to its corners: ticks, panels laid askew
constexpr double kInset = 0.15;        // share of the window's sides that is left out inside
constexpr double kSteady = 0.85;       // paper of one side, to that of the brightest one: below it something lies there
constexpr int kBlocks = 8;             // along the window's longer side
constexpr double kShadow = 0.8;        // darkest paper of the ring, to its brightest: below it a shadow's edge is near
// ΔE*ab, tuned on simulated sheets in light that falls off by 15 %, with the noise of a phone: empty windows came to a difference of 0.3 and a
// texture of 0.8 at the most.
constexpr double kLikePaper = 1.5, kFlat = 1.5, kUnlikePaper = 5.0;

/// Light of every 8-bit code.
const std::array<double, 256>& lights() {
  static const std::array<double, 256> kLights = [] {
    std::array<double, 256> light{};
    for (std::size_t i = 0; i < light.size(); ++i) light[i] = srgbToLinear(static_cast<double>(i) / 255);
    return light;
  }();
  return kLights;
}

/// Mean linear R, G, B of a patch of the sheet, sampled about once a pixel. Nothing when none of it is in the picture.
std::optional<Vec3> meanLight(const Preview& preview, const FoundMat& mat, const MatRect& patch) {
  const Quad quad = mat.place(patch);
  const auto side = [&](std::size_t a, std::size_t b) {
    return preview.scale * std::hypot(quad.corners[a].x - quad.corners[b].x, quad.corners[a].y - quad.corners[b].y);
  };
  const int across = std::clamp(static_cast<int>(std::ceil(std::max(side(0, 1), side(3, 2)))), 2, 60);
  const int down = std::clamp(static_cast<int>(std::ceil(std::max(side(0, 3), side(1, 2)))), 2, 60);
  Vec3 sum{};
  int count = 0;
  for (int j = 0; j < down; ++j)
    for (int i = 0; i < across; ++i) {
      const Point at = mat.place(Point{patch.x + patch.width * (i + 0.5) / across, patch.y + patch.height * (j + 0.5) / down});
      const double x = std::floor(at.x * preview.scale), y = std::floor(at.y * preview.scale);
      if (!(x >= 0 && y >= 0 && x < preview.size.width && y < preview.size.height)) continue;
      const auto index = static_cast<std::size_t>(y) * static_cast<std::size_t>(preview.size.width) + static_cast<std::size_t>(x);
      const std::uint8_t* pixel = &preview.rgb[3 * index];
      sum = sum + Vec3{lights()[pixel[0]], lights()[pixel[1]], lights()[pixel[2]]};
      ++count;
    }
  if (count == 0) return std::nullopt;
  return (1.0 / count) * sum;
}

Lab<D50> toLabOf(const Vec3& share) { return toLab(toXyzD50({share[0], share[1], share[2]})); }

/// Paper along one side of the window in three parts, from left to right or from top to bottom.
using WindowSide = std::array<Vec3, 3>;

Vec3 along(const WindowSide& side, double t) {  // the parts' middles are at 1/6, 1/2 and 5/6
  const double at = std::clamp(3 * t - 0.5, 0.0, 2.0);
  const auto part = std::min<std::size_t>(1, static_cast<std::size_t>(at));
  const double u = at - static_cast<double>(part);
  return (1 - u) * side[part] + u * side[part + 1];
}

struct Ring {
  std::optional<WindowSide> left, top, right, bottom;

  /// The paper's light at a place in the window, 0..1 along its sides.
  std::optional<Vec3> at(double u, double v) const {
    const auto between = [](const std::optional<WindowSide>& a, const std::optional<WindowSide>& b, double t, double across) -> std::optional<Vec3> {
      if (!a || !b) return std::nullopt;
      return (1 - across) * along(*a, t) + across * along(*b, t);
    };
    const auto level = between(left, right, v, u), upright = between(top, bottom, u, v);
    if (level && upright) return 0.5 * (*level + *upright);
    if (level) return level;
    if (upright) return upright;
    // One side of each pair at the most: what there is.
    Vec3 sum{};
    int count = 0;
    for (const auto& [side, t] : {std::pair{&left, v}, std::pair{&right, v}, std::pair{&top, u}, std::pair{&bottom, u}})
      if (*side) {
        sum = sum + along(**side, t);
        ++count;
      }
    if (count == 0) return std::nullopt;
    return (1.0 / count) * sum;
  }

  /// ΔE*ab of a light from the paper at the brightness that suits it best, of those that the ring shows. As far as can be when no shadow is there.
  double differenceInShade(const Vec3& light) const {
    Vec3 paper{};
    double darkest = INFINITY, brightest = 0;
    for (const auto* side : {&left, &top, &right, &bottom})
      for (std::size_t k = 0; *side && k < 3; ++k) {
        const Vec3& part = (**side)[k];
        darkest = std::min(darkest, part[1]);
        if (part[1] <= brightest) continue;
        brightest = part[1];
        paper = part;
      }
    if (!(darkest < kShadow * brightest)) return INFINITY;
    const double shade = std::clamp(light[1] / brightest, darkest / brightest, 1.0);
    Vec3 share;
    for (std::size_t c = 0; c < 3; ++c) share[c] = light[c] / std::max(1e-6, shade * paper[c]);
    return length(toVec(toLabOf(share)) - toVec(toLabOf({1, 1, 1})));
  }
};

Ring ringOf(const Preview& preview, const FoundMat& mat, const MatRect& w) {
  const double near = kRingInner * mat.layout.clear, deep = (kRingOuter - kRingInner) * mat.layout.clear;
  const auto side = [&](bool lying, double start) -> std::optional<WindowSide> {
    WindowSide parts{};
    const double length = (lying ? w.width : w.height), part = length * (1 - 2 * kCorners) / 3;
    for (std::size_t k = 0; k < 3; ++k) {
      const double from = length * kCorners + part * static_cast<double>(k);
      const auto light = meanLight(preview, mat, lying ? MatRect{w.x + from, start, part, deep} : MatRect{start, w.y + from, deep, part});
      if (!light) return std::nullopt;
      parts[k] = *light;
    }
    return parts;
  };
  Ring ring{side(false, w.x - near - deep), side(true, w.y - near - deep), side(false, w.x + w.width + near), side(true, w.y + w.height + near)};
  // Paper is the brightest thing there is, in every channel.
  std::array<std::optional<WindowSide>*, 4> sides{&ring.left, &ring.top, &ring.right, &ring.bottom};
  const auto mean = [](const WindowSide& s) { return (1.0 / 3) * (s[0] + s[1] + s[2]); };
  Vec3 best{};
  for (const auto* s : sides)
    for (std::size_t c = 0; *s && c < 3; ++c) best[c] = std::max(best[c], mean(**s)[c]);
  for (auto* s : sides) {
    if (!*s) continue;
    const Vec3 light = mean(**s);
    // A shadow on the paper dims all channels alike: then the side stays, for it says how bright the paper is there.
    const Vec3 share{light[0] / best[0], light[1] / best[1], light[2] / best[2]};
    const auto [low, high] = std::ranges::minmax(share);
    if (low < kSteady * high || high < 0.3) s->reset();
  }
  return ring;
}

}  // namespace

WindowContrast windowContrast(const Preview& preview, const FoundMat& mat, std::size_t window) {
  const MatRect& w = mat.layout.windows.at(window).place;
  const Ring ring = ringOf(preview, mat, w);
  const double longer = std::max(w.width, w.height);
  const int across = std::max(2, static_cast<int>(std::lround(kBlocks * w.width / longer)));
  const int down = std::max(2, static_cast<int>(std::lround(kBlocks * w.height / longer)));
  const double width = w.width * (1 - 2 * kInset), height = w.height * (1 - 2 * kInset);
  std::vector<Vec3> blocks;
  Vec3 mean{}, seen{};
  for (int j = 0; j < down; ++j)
    for (int i = 0; i < across; ++i) {
      const MatRect block{w.x + w.width * kInset + width * i / across, w.y + w.height * kInset + height * j / down, width / across, height / down};
      const auto light = meanLight(preview, mat, block);
      const auto paper = ring.at((block.x + block.width / 2 - w.x) / w.width, (block.y + block.height / 2 - w.y) / w.height);
      if (!light || !paper) continue;
      Vec3 share;
      for (std::size_t c = 0; c < 3; ++c) share[c] = (*light)[c] / std::max(1e-6, (*paper)[c]);
      blocks.push_back(share);
      mean = mean + share;
      seen = seen + *light;
    }
  if (blocks.empty()) return {100, 100, 0};  // no paper round it at all
  const Lab<D50> middle = toLabOf((1.0 / static_cast<double>(blocks.size())) * mean), paper = toLabOf({1, 1, 1});
  double squares = 0;
  for (const Vec3& block : blocks) {
    const Vec3 off = toVec(toLabOf(block)) - toVec(middle);
    squares += dot(off, off) / static_cast<double>(blocks.size());
  }
  const double difference = length(toVec(middle) - toVec(paper));
  return {difference, std::min(difference, ring.differenceInShade((1.0 / static_cast<double>(blocks.size())) * seen)), std::sqrt(squares)};
}

WindowState windowState(const Preview& preview, const FoundMat& mat, std::size_t window) {
  const WindowContrast contrast = windowContrast(preview, mat, window);
  if (contrast.difference < kLikePaper && contrast.texture < kFlat) return WindowState::Empty;
  return contrast.beyond_shade > kUnlikePaper ? WindowState::Filled : WindowState::Unsure;
}

MatRect windowContents(const Preview& preview, const FoundMat& mat, std::size_t window) {
  constexpr int kFine = 48;           // blocks along the longer side
  // A row is paper when its middle value has the paper's colour, be it shaded by the thing beside it, and not less than so much of its light.
  constexpr double kPaperColour = 4.0, kPaperLight = 0.45;  // ΔE*ab in a* and b*; share. Tuned on simulated sheets
  const double most_mm = 0.65 * mat.layout.clear;   // a longer run of paper-like rows is a pale thing
  const double safety = 0.15 * mat.layout.clear;    // off every side: things lie askew, and throw shadows
  const MatRect& w = mat.layout.windows.at(window).place;
  const Ring ring = ringOf(preview, mat, w);
  const double longer = std::max(w.width, w.height);
  const int across = std::max(4, static_cast<int>(std::lround(kFine * w.width / longer)));
  const int down = std::max(4, static_cast<int>(std::lround(kFine * w.height / longer)));
  const auto columns = static_cast<std::size_t>(across), rows = static_cast<std::size_t>(down);
  std::vector<double> off(columns * rows, 100.0);  // from the paper's colour; far where it is too dark
  for (std::size_t j = 0; j < rows; ++j)
    for (std::size_t i = 0; i < columns; ++i) {
      const MatRect block{w.x + w.width * static_cast<double>(i) / across, w.y + w.height * static_cast<double>(j) / down, w.width / across, w.height / down};
      const auto light = meanLight(preview, mat, block);
      const auto paper = ring.at((static_cast<double>(i) + 0.5) / across, (static_cast<double>(j) + 0.5) / down);
      if (!light || !paper) continue;
      Vec3 share;
      for (std::size_t c = 0; c < 3; ++c) share[c] = (*light)[c] / std::max(1e-6, (*paper)[c]);
      const double bright = (share[0] + share[1] + share[2]) / 3;
      if (bright < kPaperLight) continue;
      const Lab<D50> lab = toLabOf((1 / bright) * share);
      off[j * columns + i] = std::hypot(lab.a, lab.b);
    }
  /// How many lines at the low end and at the high end are paper, each with the one that the edge runs through.
  const auto blank = [&](bool of_rows) {
    const std::size_t lines = of_rows ? rows : columns, cells = of_rows ? columns : rows;
    const auto isPaper = [&](std::size_t line) {
      std::vector<double> inner;
      for (std::size_t k = cells / 5; k < cells - cells / 5; ++k) inner.push_back(off[of_rows ? line * columns + k : k * columns + line]);
      std::ranges::nth_element(inner, inner.begin() + static_cast<std::ptrdiff_t>(inner.size() / 2));
      return inner[inner.size() / 2] < kPaperColour;
    };
    const auto most = std::min(static_cast<std::size_t>(most_mm / (of_rows ? w.height / down : w.width / across)), lines / 4);
    std::array<std::size_t, 2> ends{0, 0};
    while (ends[0] <= most && isPaper(ends[0])) ++ends[0];
    while (ends[1] <= most && isPaper(lines - 1 - ends[1])) ++ends[1];
    for (std::size_t& end : ends) end = end > most ? 0 : end > 0 ? end + 1 : 0;  // pale all over: nothing is known
    return ends;
  };
  const auto [left, right] = blank(false);
  const auto [top, bottom] = blank(true);
  const double wide = w.width / across, tall = w.height / down;
  const double x = w.x + wide * static_cast<double>(left) + safety, y = w.y + tall * static_cast<double>(top) + safety;
  return {x, y, w.width - wide * static_cast<double>(left + right) - 2 * safety, w.height - tall * static_cast<double>(top + bottom) - 2 * safety};
}

}  // namespace huewright
