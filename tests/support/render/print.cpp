#include "render/print.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace huewright::render {
namespace {

enum class Align { Left, Centre, Right };

bool withinRect(const MatRect& r, Point p) { return p.x >= r.x && p.x <= r.x + r.width && p.y >= r.y && p.y <= r.y + r.height; }

/// The sheet's part that the printer reaches and that is still there, in the layout's millimetres.
MatRect printable(const MatSpec& mat) {
  const Point page = pageSize(mat);
  const double rim = mat.layout.isCutOut() ? 0 : mat.layout.printer_margin;
  const double w = (page.x - 2 * rim) / mat.print_scale_x, h = (page.y - 2 * rim) / mat.print_scale_y;
  return {0.5 * (mat.layout.width - w), 0.5 * (mat.layout.height - h), w, h};
}

class Press {
 public:
  Press(Canvas& canvas, const Eye& eye, const MatSpec& mat, const Mat3& to_picture)
      : canvas_(canvas), to_picture_(to_picture), reach_(printable(mat)), hole_(mat.layout.aperture), ink_(eye.see(inkBody(mat.ink))) {}

  template <class Share>
  void put(const MatRect& where, const Share& share) const {
    canvas_.print(to_picture_, where, ink_, [&](Point p) { return withinRect(reach_, p) && !(hole_ && withinRect(*hole_, p)) ? share(p) : 0.0; });
  }
  void box(const MatRect& r, double share = 1) const {
    put(r, [&](Point) { return share; });
  }

  /// Words of strokes in a line, its letters `size` high, in the layout's millimetres; y: the base line.
  void words(double x, double base, double size, int letters, Align align) const {
    const double advance = 0.56 * size, width = advance * letters;
    const double left = align == Align::Left ? x : align == Align::Centre ? x - width / 2 : x - width;
    const MatRect line{left, base - 0.74 * size, width, 0.74 * size};
    const auto seed = static_cast<std::uint32_t>(std::lround(97 * left + 31 * base)) + 12345U;
    put(line, [&](Point p) {
      const double at = (p.x - line.x) / advance, u = (at - std::floor(at)) / 0.72, v = (p.y - line.y) / line.height;
      std::uint32_t h = (seed + static_cast<std::uint32_t>(at)) * 2654435761U;
      h ^= h >> 15;
      if (u > 1 || h % 7 == 0) return 0.0;
      constexpr double kThick = 0.24;
      const bool low = (h & 0x100U) != 0 && v < 0.3;   // a letter without a stem that reaches up
      const bool upright = u < kThick || (u > 1 - kThick && (h & 0x200U) != 0);
      const bool lying = (std::abs(v - 0.36) < 0.09 && (h & 0x400U) != 0) || (v > 0.82 && (h & 0x800U) != 0);
      return !low && (upright || lying) ? 1.0 : 0.0;
    });
  }

  /// As many lines of words as fit.
  void lines(MatRect area, double size, Align align) const {
    const double x = align == Align::Left ? area.x : align == Align::Centre ? area.x + area.width / 2 : area.x + area.width;
    int n = 0;
    for (double base = area.y + size; base <= area.y + area.height; base += 1.35 * size, ++n)
      words(x, base, size, static_cast<int>((0.97 - 0.11 * (n % 3)) * area.width / (0.56 * size)), align);
  }

 private:
  Canvas& canvas_;
  Mat3 to_picture_;
  MatRect reach_;
  std::optional<MatRect> hole_;
  Raw ink_;
};

void ticks(const Press& press, const MatRect& w, const MatTicks& t) {
  for (const double x : {w.x, w.x + w.width})
    for (const double y : {w.y - t.gap - t.length, w.y + w.height + t.gap}) press.box({x - t.width / 2, y, t.width, t.length}, 0.7);
  for (const double y : {w.y, w.y + w.height})
    for (const double x : {w.x - t.gap - t.length, w.x + w.width + t.gap}) press.box({x, y - t.width / 2, t.length, t.width}, 0.7);
}

void windows(const Press& press, const MatLayout& layout) {
  constexpr int kLetters[kMatWindowKindCount] = {7, 4, 6, 5};
  const MatLabels& l = layout.labels;
  for (const MatWindow& w : layout.windows) {
    ticks(press, w.place, layout.ticks);
    const double base = w.label_below ? w.place.y + w.place.height + l.gap + 0.75 * l.size : w.place.y - l.gap;
    press.words(w.place.x + w.place.width / 2, base, l.size, kLetters[static_cast<std::size_t>(w.kind)], Align::Centre);
  }
  if (layout.aperture) ticks(press, *layout.aperture, layout.ticks);
}

void marker(const Press& press, const MatMarker& m) {
  const double cell = m.side / kMatMarkerCells;
  press.put({m.x, m.y, m.side, m.side}, [&](Point p) {
    const int column = static_cast<int>((p.x - m.x) / cell) - 1, row = static_cast<int>((p.y - m.y) / cell) - 1;
    const bool inner = column >= 0 && row >= 0 && column < 4 && row < 4;
    return inner && m.white[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)] ? 0.0 : 1.0;
  });
}

/// A square with a lamp, a ray and a plate in it, and words below.
void pictograms(const Press& press, const MatRect& area) {
  constexpr int kCount = 5;
  const double column = area.width / kCount, words = 0.13 * area.height, side = area.height - 1.8 * words;
  for (int i = 0; i < kCount; ++i) {
    const MatRect frame{area.x + i * column + (column - side) / 2, area.y, side, side};
    press.put(frame, [&](Point p) {
      const double u = (p.x - frame.x) / side, v = (p.y - frame.y) / side, edge = std::min(std::min(u, 1 - u), std::min(v, 1 - v));
      const double ring = std::abs(std::hypot(u - 0.25 - 0.1 * i, v - 0.27) - 0.13);
      const bool plate = v > 0.74 && v < 0.82 && u > 0.2 && u < 0.8, ray = std::abs(u - v - 0.05 * i) < 0.025 && v > 0.4 && v < 0.7;
      return edge < 0.03 || ring < 0.03 || plate || ray ? 1.0 : 0.0;
    });
    press.words(frame.x + side / 2, area.y + area.height - 0.3 * words, words, static_cast<int>(0.85 * column / (0.56 * words)), Align::Centre);
  }
}

void head(const Press& press, const MatAreas& areas) {
  const double line = std::max(0.155 * areas.title.height, 0.5 * std::min(areas.title.height, 6.0));
  press.lines(areas.title, line, Align::Left);
  press.lines(areas.caution, line, Align::Right);
  const MatRect& lamp = areas.lamp;
  const double tall = 0.45 * lamp.height, x = lamp.x + lamp.width / 2;
  press.put({x - tall, lamp.y, 2 * tall, tall}, [&](Point p) {
    const double u = std::abs(p.x - x) / tall, v = (p.y - lamp.y) / tall;
    return (v < 0.52 && u < v) || (v >= 0.52 && u < 0.2) ? 1.0 : 0.0;
  });
  press.lines({lamp.x, lamp.y + 1.25 * tall, lamp.width, lamp.height - 1.25 * tall}, 0.18 * lamp.height, Align::Centre);
}

void ruler(const Press& press, const MatRuler& r) {
  press.box({r.x, r.y, r.length, 0.3});
  for (double mm = 0; mm <= r.length; mm += 10) press.box({r.x + mm - 0.1, r.y, 0.2, 1.5});
  press.words(r.x + r.length / 2, r.y - 1.5, 3.3, 40, Align::Centre);
}

}  // namespace

void printMat(Canvas& canvas, const Eye& eye, const MatSpec& mat, const Mat3& sheet_to_picture) {
  const MatLayout& layout = mat.layout;
  const Press press(canvas, eye, mat, sheet_to_picture);
  for (const MatMarker& m : layout.markers) marker(press, m);
  const double cover = std::clamp((mat.paper.y - mat.dots) / (mat.paper.y - mat.ink), 0.0, 1.0), radius = layout.dots.diameter / 2;
  for (const Point& dot : layout.dots.centres)
    press.put({dot.x - radius, dot.y - radius, 2 * radius, 2 * radius},
              [&](Point p) { return std::hypot(p.x - dot.x, p.y - dot.y) <= radius ? cover : 0.0; });
  windows(press, layout);
  head(press, layout.areas);
  pictograms(press, layout.areas.pictograms);
  press.lines(layout.areas.notes, 0.38 * layout.areas.notes.height, Align::Centre);
  ruler(press, layout.ruler);
}

std::vector<Smudge> soil(Canvas& canvas, const Eye& eye, const MatSpec& mat, const Mat3& sheet_to_picture, Random random) {
  const Point page = pageSize(mat);
  const Raw white = eye.see(flat(1));
  std::vector<Smudge> all;
  for (int n = 0; n < mat.dirt; ++n) {
    const double u = random.uniform(-0.5, 0.5), v = random.uniform(-0.5, 0.5), radius = 0.5 * random.uniform(3, 15);
    const Point mm{0.5 * mat.layout.width + u * page.x / mat.print_scale_x, 0.5 * mat.layout.height + v * page.y / mat.print_scale_y};
    const auto through = [&](Point p) {
      const Vec3 at = sheet_to_picture * Vec3{p.x, p.y, 1};
      return Point{at[0] / at[2], at[1] / at[2]};
    };
    const Point at = through(mm), beside = through({mm.x + radius / mat.print_scale_x, mm.y});
    const double dark = random.uniform(0.3, 0.9), where = random.uniform(430, 660);
    const Spectrum stain = random.chance(0.5) ? flat(1 - dark) : flat(1) + (-dark) * bump(where, 70);
    const Raw seen = eye.see(stain);
    Vec3 keep{};
    for (std::size_t c = 0; c < 3; ++c) keep[c] = static_cast<double>(seen.first[c]) / static_cast<double>(white.first[c]);
    const double pixels = std::hypot(beside.x - at.x, beside.y - at.y);
    canvas.smudge(at, pixels, random.uniform(0.45, 1), random.uniform(0, std::numbers::pi), keep, random);
    all.push_back({at, pixels});
  }
  return all;
}

}  // namespace huewright::render
