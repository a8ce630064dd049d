#include "render/chart_scene.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "render/plane.hpp"

namespace huewright::render {
namespace {

constexpr double kDegree = std::numbers::pi / 180;

Spectrum anySurface(Random& random) { return surfaces190()[static_cast<std::size_t>(random.below(static_cast<int>(surfaces190().size())))]; }

// A place beside another one, turned with it: offsets in the other's own directions from its middle.
Place placeWithin(const Place& sheet, double dx, double dy, double width, double height) {
  const double c = std::cos(sheet.turn_deg * kDegree), s = std::sin(sheet.turn_deg * kDegree);
  const double x = sheet.x + 0.5 * sheet.width + c * dx - s * dy, y = sheet.y + 0.5 * sheet.height + s * dx + c * dy;
  return {x - 0.5 * width, y - 0.5 * height, width, height, sheet.turn_deg};
}

class Untidy {
 public:
  Untidy(SceneSpec& scene, Random& random) : scene_(scene), random_(random), perspective_(scene.shop.view, scene.size), unit_(scene.size.width) {}

  void addOne() {
    switch (random_.below(5)) {
      case 0: return writtenSheet();
      case 1: return card();
      case 2: return tool();
      case 3: return swatches();
      default: return ruler();
    }
  }

 private:
  void put(const Place& place, const Spectrum& body, double texture, bool shadow, double bevel = 0) {
    scene_.clutter.push_back({place, body, texture, bevel, shadow});
  }

  // So large, parts of the picture's width, and anywhere in the picture.
  Place anywhere(double width, double height) {
    const Point at = perspective_.toPlane({random_.uniform(0, scene_.size.width), random_.uniform(0, scene_.size.height)});
    const double w = width * unit_, h = height * unit_;
    return {at.x - 0.5 * w, at.y - 0.5 * h, w, h, random_.uniform(-180, 180)};
  }

  void writtenSheet() {
    const double size = random_.uniform(0.15, 0.4);
    const Place sheet = anywhere(size, 0.7 * size);
    put(sheet, paperBody({}), 0.01, true);
    const int lines = 3 + random_.below(9);
    for (int i = 0; i < lines; ++i) {
      const double length = sheet.width * random_.uniform(0.3, 0.8), y = sheet.height * (0.8 * (i + 0.5) / lines - 0.4);
      put(placeWithin(sheet, 0.5 * length - 0.42 * sheet.width, y, length, std::max(0.25 * sheet.height / lines, 1.5)), inkBody(0.08), 0.1, false);
    }
  }

  // Each draw stands in a statement of its own: the order of a call's arguments is the compiler's choice.
  void card() {
    const double width = random_.uniform(0.05, 0.25), height = random_.uniform(0.04, 0.2);
    const Place place = anywhere(width, height);
    put(place, anySurface(random_), 0.01, true);
  }

  void tool() {
    const double length = random_.uniform(0.15, 0.45), width = random_.uniform(0.012, 0.04), y = random_.uniform(0.03, 0.5);
    put(anywhere(length, width), grey(y, 0.05), 0.04, true, 3);
  }

  // What a chart can be mistaken for.
  void swatches() {
    const int columns = 3 + random_.below(6), rows = 1 + random_.below(3);
    const double pitch = random_.uniform(0.02, 0.05) * unit_, side = pitch * random_.uniform(0.7, 0.92);
    const Place board = anywhere((columns + 0.3) * pitch / unit_, (rows + 0.3) * pitch / unit_);
    put(board, random_.chance(0.5) ? paperBody({}) : grey(0.05, 0.02), 0.01, true);
    for (int i = 0; i < columns * rows; ++i) {
      const double dx = (i % columns - 0.5 * (columns - 1)) * pitch, dy = (i / columns - 0.5 * (rows - 1)) * pitch;
      put(placeWithin(board, dx, dy, side, side), anySurface(random_), 0.006, false);
    }
  }

  void ruler() {
    const Place bar = anywhere(random_.uniform(0.2, 0.5), 0.03);
    put(bar, random_.chance(0.5) ? 0.6 * step(520, 15) : grey(0.6, 0.02), 0.01, true);
    const int marks = 20 + random_.below(20);
    for (int i = 0; i < marks; ++i) {
      const double high = bar.height * (i % 5 == 0 ? 0.5 : 0.3), dx = bar.width * ((i + 0.5) / marks - 0.5);
      put(placeWithin(bar, dx, 0.5 * (high - bar.height), std::max(0.003 * unit_, 1.5), high), grey(0.03, 0.01), 0, false);
    }
  }

  SceneSpec& scene_;
  Random& random_;
  Perspective perspective_;
  double unit_;
};

bool inPicture(const Quad& quad, Size size) {
  const double rim = 0.01 * size.width;
  return std::ranges::all_of(quad.corners, [&](Point p) { return p.x > rim && p.y > rim && p.x < size.width - rim && p.y < size.height - rim; });
}

// The mean of two opposite sides, the longer pair.
double longerSide(const Quad& q) {
  const auto side = [&](std::size_t i) { return std::hypot(q.corners[(i + 1) % 4].x - q.corners[i].x, q.corners[(i + 1) % 4].y - q.corners[i].y); };
  return 0.5 * std::max(side(0) + side(2), side(1) + side(3));
}

void layChart(SceneSpec& scene, const ChartSceneOptions& options, Random& random) {
  const Perspective perspective(scene.shop.view, scene.size);
  ChartSpec& chart = *scene.chart;
  const double pitches = kChartColumns - 1 + chart.patch_share, share = pitches / (pitches + 2 * chart.margin);   // of the board's width
  double wanted = random.uniform(options.min_width, options.max_width) * scene.size.width / share;
  const double turn = random.uniform(-options.max_turn_deg, options.max_turn_deg);
  for (int round = 0;; ++round) {
    const bool last = round % 40 == 39;   // the middle, and then a smaller chart
    const Point seen = last ? Point{0.5 * scene.size.width, 0.5 * scene.size.height}
                            : Point{random.uniform(0, scene.size.width), random.uniform(0, scene.size.height)};
    const Point at = perspective.toPlane(seen);
    double width = wanted;
    Quad quad;
    for (int k = 0; k < 6; ++k) {
      const double high = boardShape(chart) * width;
      chart.place = {at.x - 0.5 * width, at.y - 0.5 * high, width, high, turn};
      quad = toPicture(perspective, cornersOf(chart.place));
      width *= wanted / longerSide(quad);
    }
    if (inPicture(quad, scene.size)) return;
    if (last) wanted *= 0.93;
  }
}

// Over an edge or a corner: one to six patches lose their middle.
Cover cover(Random& random) {
  const double a = random.uniform(0.22, 0.34), b = random.uniform(0.25, 0.45), slope = random.uniform(-0.04, 0.04);
  Cover c;
  c.y = random.uniform(0.03, 0.7);
  c.tilt = random.uniform(0.05, 0.4);
  if (random.chance(0.5)) c.quad = {{{{-0.2, -0.2}, {a, -0.2}, {a + slope, b}, {-0.2, b - slope}}}};   // a corner
  else c.quad = {{{{0.42 - 0.5 * a, -0.2}, {0.42 + 0.5 * a, -0.2}, {0.42 + 0.5 * a + slope, b}, {0.42 - 0.5 * a + slope, b}}}};
  if (random.chance(0.5)) {
    for (Point& p : c.quad.corners) p = {1 - p.x, 1 - p.y};
  }
  return c;
}

CastShadow shadowOver(const SceneSpec& scene, Random& random) {
  const Point middle = centre(toPicture(Perspective(scene.shop.view, scene.size), cornersOf(scene.chart->place)));
  const double angle = random.uniform(0, 2 * std::numbers::pi), dx = 100 * std::cos(angle), dy = 100 * std::sin(angle);
  return {{middle.x - dx, middle.y - dy}, {middle.x + dx, middle.y + dy}, random.uniform(10, 60), random.uniform(0.2, 0.6)};
}

}  // namespace

SceneSpec chartScene(std::uint64_t seed, const ChartSceneOptions& options) {
  Random random = streamOf(seed, 0xc4a27);
  SceneSpec scene;
  scene.size = options.size;
  scene.shop = randomShop(seed, options.shop);
  const double tilt = random.uniform(0, options.max_tilt_deg), direction = random.uniform(0, 2 * std::numbers::pi);
  scene.shop.view.tilt_deg = tilt * std::sin(direction);
  scene.shop.view.turn_deg = tilt * std::cos(direction);
  scene.panels.clear();
  scene.greys.clear();
  scene.has_card = false;
  scene.chart = ChartSpec{};
  ChartSpec& chart = *scene.chart;
  chart.patch_share = random.uniform(0.8, 0.92);
  chart.margin = random.uniform(0.1, 0.35);
  chart.frame = random.chance(options.bright_frame_chance) ? random.uniform(0.4, 0.85) : random.uniform(0.025, 0.06);
  chart.spread = options.spread;
  chart.mirrored = random.chance(options.mirrored_chance);
  layChart(scene, options, random);
  if (random.chance(options.cover_chance)) chart.covers.push_back(cover(random));
  if (random.chance(options.glare_chance))
    chart.glare.push_back({random.uniform(0, 1), random.uniform(0, 1), random.uniform(0.1, 0.35), random.uniform(0.1, 0.35), random.uniform(0.05, 0.5)});
  if (random.chance(options.shadow_chance)) scene.shadow = shadowOver(scene, random);
  Untidy untidy(scene, random);
  for (int n = options.most_clutter > 0 ? random.below(options.most_clutter + 1) : 0; n > 0; --n) untidy.addOne();
  return scene;
}

}  // namespace huewright::render
