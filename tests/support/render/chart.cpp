#include "render/chart.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <numbers>
#include <stdexcept>

#include "colour/cgats.hpp"
#include "render/board.hpp"
#include "render/things.hpp"

namespace huewright::render {
namespace {

constexpr int kSamples = 24;   // of a patch, each way, to tell what hides it

// Length of the board in chart units, and where it begins.
struct Extent {
  double begin, width, height;
};
Extent extentOf(const ChartSpec& chart) {
  const double rim = chart.patch_share + 2 * chart.margin;
  return {0.5 - 0.5 * chart.patch_share - chart.margin, kChartColumns - 1 + rim, kChartRows - 1 + rim};
}

// Chart units as the board lies (never mirrored) to the plane: affine.
Mat3 lyingToPlane(const ChartSpec& chart) {
  const Extent e = extentOf(chart);
  const Place& p = chart.place;
  const double pitch = p.width / e.width, angle = p.turn_deg * std::numbers::pi / 180;
  const double c = pitch * std::cos(angle), s = pitch * std::sin(angle);
  const double x = e.begin + 0.5 * e.width, y = e.begin + 0.5 * e.height;   // the board's middle
  const double mx = p.x + 0.5 * p.width, my = p.y + 0.5 * p.height;
  return {{{{c, -s, mx - c * x + s * y}, {s, c, my - s * x - c * y}, {0, 0, 1}}}};
}

Point through(const Mat3& m, Point p) {
  const Vec3 v = m * Vec3{p.x, p.y, 1};
  return {v[0] / v[2], v[1] / v[2]};
}

Quad rectangle(const Mat3& m, double left, double top, double right, double bottom) {
  return {{through(m, {left, top}), through(m, {right, top}), through(m, {right, bottom}), through(m, {left, bottom})}};
}

Quad coverQuad(const Cover& cover, const ChartSpec& chart, const Mat3& to_picture) {
  const Extent e = extentOf(chart);
  Quad quad = cover.quad;
  for (Point& p : quad.corners) p = through(to_picture, {e.begin + p.x * e.width, e.begin + p.y * e.height});
  return quad;
}

Thing onBoard(const ChartSpec& chart, const Place& place, const Perspective& perspective, const Eye& eye, const Spectrum& body, double veil) {
  Thing thing = thingAt(place, perspective);
  giveBody(thing, eye, body);
  thing.sparkle = chart.texture;
  thing.finish.glare = chart.glare;
  thing.glare_over = chart.place;
  thing.veil = chart.glossy ? veil : 0;
  return thing;
}

}  // namespace

const std::vector<ChartColour>& chartColours() {
  static const std::vector<ChartColour> all = [] {
    const auto path = calibFolder() / "charts" / "chart24.txt";
    const auto wrong = [&](const std::string& what) { throw std::runtime_error("renderer data missing: " + path.string() + " " + what); };
    std::ifstream file(path, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(file), {}};
    const auto table = readCgats(bytes);
    if (!table) wrong(withLine(table.error()));
    const auto id = table->find("SAMPLE_ID"), name = table->find("SAMPLE_NAME");
    if (!id || !name || table->rows.size() != std::size_t{kChartColumns} * kChartRows) wrong("(no such chart)");
    std::vector<ChartColour> colours(table->rows.size());
    for (std::size_t row = 0; row < colours.size(); ++row) {
      ChartColour& colour = colours[row];
      colour.id = table->rows[row][*id];
      colour.name = table->rows[row][*name];
      const std::string wanted{static_cast<char>('A' + row % kChartColumns), static_cast<char>('1' + row / kChartColumns)};
      if (colour.id != wanted) wrong("(patches not in order)");
      for (std::size_t i = 0; i < kBands; ++i) {
        const auto value = table->number(row, "SPECTRAL_NM" + std::to_string(std::lround(wavelength(i))));
        if (!value) wrong(withLine(value.error()));
        colour.body[i] = *value;
      }
    }
    return colours;
  }();
  return all;
}

double boardShape(const ChartSpec& chart) {
  const Extent e = extentOf(chart);
  return e.height / e.width;
}

std::vector<Spectrum> patchBodies(const ChartSpec& chart, std::uint64_t seed) {
  Random random = streamOf(chart.spread_seed != 0 ? chart.spread_seed : seed, 9);
  std::vector<Spectrum> bodies;
  for (const ChartColour& colour : chartColours()) {
    const double scale = chart.spread * random.normal(), slope = chart.spread * random.normal();
    Spectrum body = colour.body;
    if (chart.spread > 0)
      for (std::size_t i = 0; i < kBands; ++i) body[i] = std::clamp(body[i] * (1 + scale) * (1 + slope * (wavelength(i) - 560) / 150), 0.0, 1.0);
    bodies.push_back(body);
  }
  return bodies;
}

Quad boardQuad(const ChartSpec& chart, const Perspective& perspective) { return toPicture(perspective, cornersOf(chart.place)); }

ChartTruth paintChart(Canvas& canvas, const Eye& eye, const SceneSpec& scene, const Perspective& perspective, std::uint64_t seed) {
  const ChartSpec& chart = *scene.chart;
  const double veil = scene.shop.veil, half = 0.5 * chart.patch_share;
  const Mat3 to_plane = lyingToPlane(chart), lying = perspective.forward() * to_plane;
  const Extent e = extentOf(chart);
  ChartTruth truth;
  truth.mirrored = chart.mirrored;
  truth.patch_share = chart.patch_share;
  truth.board = boardQuad(chart, perspective);
  truth.quad = rectangle(lying, 0.5 - half, 0.5 - half, kChartColumns - 0.5 + half, kChartRows - 0.5 + half);
  truth.homography = chart.mirrored ? lying * Mat3{{{{-1, 0, kChartColumns}, {0, 1, 0}, {0, 0, 1}}}} : lying;
  canvas.paint(onBoard(chart, chart.place, perspective, eye, grey(chart.frame, 0.01), veil), streamOf(seed, 8));

  std::vector<Edges> covers;
  for (const Cover& cover : chart.covers) covers.emplace_back(coverQuad(cover, chart, lying));
  const auto bodies = patchBodies(chart, seed);
  const double side = chart.patch_share * chart.place.width / e.width;
  for (std::size_t i = 0; i < bodies.size(); ++i) {
    const int named = static_cast<int>(i) % kChartColumns, column = chart.mirrored ? kChartColumns - 1 - named : named;
    const double x = column + 0.5, y = static_cast<double>(i / kChartColumns) + 0.5;
    const Point middle = through(to_plane, {x, y});
    const Place place{middle.x - 0.5 * side, middle.y - 0.5 * side, side, side, chart.place.turn_deg};
    canvas.paint(onBoard(chart, place, perspective, eye, bodies[i], veil), streamOf(seed, 300 + i));
    PatchTruth patch{chartColours()[i].id, chartColours()[i].name, rectangle(lying, x - half, y - half, x + half, y + half), labUnderD50(bodies[i]),
                     xyzUnderD50(bodies[i]).Y};
    int hidden = 0;
    for (int k = 0; k < kSamples * kSamples; ++k) {
      const double px = x + chart.patch_share * ((k % kSamples + 0.5) / kSamples - 0.5);
      const double py = y + chart.patch_share * ((k / kSamples + 0.5) / kSamples - 0.5);
      const Point at = through(lying, {px, py});
      const bool outside = at.x < 0 || at.y < 0 || at.x >= scene.size.width || at.y >= scene.size.height;
      hidden += outside || std::ranges::any_of(covers, [&](const Edges& c) { return c.inside(at.x, at.y) >= 0; });
      patch.glare += addGlare(0, chart.glare, (px - e.begin) / e.width, (py - e.begin) / e.height, e.height / e.width);
    }
    patch.hidden = hidden / (1.0 * kSamples * kSamples);
    patch.glare /= kSamples * kSamples;
    truth.patches.push_back(patch);
  }
  for (std::size_t i = 0; i < chart.covers.size(); ++i) {
    Thing thing;
    thing.quad = coverQuad(chart.covers[i], chart, lying);
    giveBody(thing, eye, grey(chart.covers[i].y, chart.covers[i].tilt));
    if (scene.drop_shadows) canvas.dropShadow(thing.quad, 0.6);
    canvas.paint(thing, streamOf(seed, 500 + i));
  }
  return truth;
}

}  // namespace huewright::render
