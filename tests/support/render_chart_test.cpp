// The colour chart in the scene renderer: its place, its truth, and what can lie on it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

#include "colour/delta_e.hpp"
#include "render/chart_scene.hpp"
#include "render/plane.hpp"
#include "render_statistics.hpp"
#include "scene/mat_layout.hpp"

namespace huewright::render {
namespace {

// A chart alone, with neither noise nor texture, straight on.
SceneSpec quietChart() {
  SceneSpec s;
  s.size = {700, 480};
  s.shop.camera.full_well = 0;
  s.shop.camera.blur = 0;
  s.panels.clear();
  s.greys.clear();
  s.has_card = false;
  s.chart = ChartSpec{};
  s.chart->place = {90, 60, 500, 0, 0};
  s.chart->texture = 0;
  return s;
}

Point at(const ChartTruth& chart, double column, double row) {
  const Vec3 v = chart.homography * Vec3{column, row, 1};
  return {v[0] / v[2], v[1] / v[2]};
}

void expectPointNear(Point a, Point b, double tolerance) {
  EXPECT_NEAR(a.x, b.x, tolerance);
  EXPECT_NEAR(a.y, b.y, tolerance);
}

TEST(Chart, itsColoursAreTheOnesThatTheTestsHaveFromElsewhere) {
  ASSERT_EQ(chartColours().size(), 24U);
  EXPECT_EQ(chartColours()[0].name, "dark skin");
  EXPECT_EQ(chartColours()[23].id, "F4");
  for (std::size_t i = 0; i < 24; ++i)
    for (std::size_t band = 0; band < kBands; ++band) EXPECT_NEAR(chartColours()[i].body[band], chart24()[i][band], 1e-12) << i;
}

TEST(Chart, aCameraSeesEveryPatchWhereTheTruthSaysAsTheTruthSays) {
  for (const bool mirrored : {false, true})
    for (const double turn : {0.0, 33.0, 90.0, -171.0}) {
      SceneSpec s = quietChart();
      s.shop.view = {14, -9, 2, 0.8};
      s.chart->mirrored = mirrored;
      s.chart->place.turn_deg = turn;
      s.chart->spread = 0.02;
      s.shop.camera.matrix = false;
      const Rendered r = render(s, 4);
      const ChartTruth& chart = r.truth.chart.value();
      const auto bodies = patchBodies(*s.chart, 4);
      const Sensor sensor('a', illuminant("D65"));
      const Vec3 white = sensor.raw(flat(1));
      ASSERT_EQ(chart.patches.size(), 24U);
      for (std::size_t i = 0; i < 24; ++i) {
        const PatchTruth& patch = chart.patches[i];
        EXPECT_EQ(patch.name, chartColours()[i].name);
        EXPECT_EQ(patch.hidden, 0);
        EXPECT_EQ(patch.glare, 0);
        EXPECT_GT(signedArea(patch.quad), 0);
        const double column = static_cast<double>(i % 6) + 0.5, row = static_cast<double>(i / 6) + 0.5;
        EXPECT_TRUE(contains(inset(patch.quad, 0.9), at(chart, column, row))) << patch.id;
        const Vec3 raw = sensor.raw(bodies[i]), seen = statisticsOf(r, patch.quad).mean;
        for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(seen[c], 0.8 * raw[c] / white[c], 1e-5) << patch.id;
        EXPECT_LT(deltaE2000(patch.lab, labUnderD50(bodies[i])), 1e-9);
      }
      EXPECT_EQ(determinant(chart.homography) < 0, mirrored);
      EXPECT_GT(signedArea(chart.quad), 0);
      EXPECT_GT(signedArea(chart.board), signedArea(chart.quad));
      // From outer corner to outer corner; a mirrored board's own top left is the corner of the last column.
      const double half = 0.5 * s.chart->patch_share, first = 0.5 - half, last = 5.5 + half, lowest = 3.5 + half;
      expectPointNear(chart.quad.corners[0], at(chart, mirrored ? last : first, first), 1e-6);
      expectPointNear(chart.quad.corners[1], at(chart, mirrored ? first : last, first), 1e-6);
      expectPointNear(chart.quad.corners[2], at(chart, mirrored ? first : last, lowest), 1e-6);
      EXPECT_LT(green(r, at(chart, 3, 2)), 0.05);   // frame between the patches
    }
}

TEST(Chart, patchesAreSquareAndTheFrameCanBeBright) {
  SceneSpec s = quietChart();
  s.chart->frame = 0.7;
  const Rendered r = render(s, 1);
  const ChartTruth& chart = r.truth.chart.value();
  const Quad& q = chart.patches[7].quad;
  EXPECT_NEAR(q.corners[1].x - q.corners[0].x, q.corners[3].y - q.corners[0].y, 1e-9);
  const double pitch = centre(chart.patches[8].quad).x - centre(q).x;
  EXPECT_NEAR((q.corners[1].x - q.corners[0].x) / pitch, chart.patch_share, 1e-9);
  EXPECT_NEAR(chart.board.corners[1].x - chart.board.corners[0].x, 500, 1e-9);
  EXPECT_NEAR(green(r, at(chart, 3, 2)), 0.8 * 0.7, 0.01);
}

TEST(Chart, spreadIsAsWideAsAskedAndTextureToo) {
  SceneSpec s = quietChart();
  double squares = 0;
  int count = 0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    s.chart->spread = 0.01;
    const auto bodies = patchBodies(*s.chart, seed);
    for (std::size_t i = 0; i < 24; ++i, ++count) squares += std::pow(xyzUnderD50(bodies[i]).Y / xyzUnderD50(chartColours()[i].body).Y - 1, 2);
  }
  EXPECT_NEAR(std::sqrt(squares / count), 0.01, 0.0015);
  s.chart->spread_seed = 77;
  EXPECT_EQ(patchBodies(*s.chart, 1), patchBodies(*s.chart, 2));
  s.chart->spread = 0;
  for (std::size_t i = 0; i < 24; ++i) EXPECT_EQ(patchBodies(*s.chart, 1)[i], chartColours()[i].body);
  s.chart->texture = 0.02;
  const Rendered r = render(s, 1);
  const Statistics grey = statisticsOf(r, r.truth.chart->patches[20].quad);
  EXPECT_NEAR(grey.sd[1] / grey.mean[1], 0.02, 0.004);
}

TEST(Chart, coversHideAndGlareLightensAsTheTruthSays) {
  SceneSpec s = quietChart();
  s.drop_shadows = false;
  const Rendered plain = render(s, 1);
  // The left half of column A, down to below the third row; glare at the lower right corner.
  const double share = s.chart->patch_share, half_column = (s.chart->margin + 0.5 * share) / (5 + share + 2 * s.chart->margin);
  s.chart->covers = {{{{{{-0.1, -0.1}, {half_column, -0.1}, {half_column, 0.75}, {-0.1, 0.75}}}}, 0.5, 0}};
  s.chart->glare = {{0.9, 0.85, 0.15, 0.2, 0.2}};
  const Rendered r = render(s, 1);
  const auto& patches = r.truth.chart->patches;
  for (const std::size_t i : {0U, 6U, 12U}) EXPECT_NEAR(patches[i].hidden, 0.5, 0.02) << i;
  for (const std::size_t i : {1U, 7U, 18U, 23U}) EXPECT_EQ(patches[i].hidden, 0) << i;
  const Quad& first = patches[0].quad;
  EXPECT_NEAR(green(r, {first.corners[0].x + 8, first.corners[0].y + 20}), 0.8 * 0.5, 0.01);
  EXPECT_NEAR(green(r, {first.corners[1].x - 8, first.corners[0].y + 20}), green(plain, {first.corners[1].x - 8, first.corners[0].y + 20}), 1e-6);
  EXPECT_EQ(patches[1].glare, 0);
  EXPECT_GT(patches[23].glare, 0.05);
  EXPECT_NEAR(statisticsOf(r, patches[23].quad, 1.0).mean[1] - statisticsOf(plain, patches[23].quad, 1.0).mean[1], 0.8 * patches[23].glare, 0.004);
}

TEST(Chart, itFindsAPlaceOfItsOwn) {
  for (const double turn : {0.0, 20.0, 90.0}) {
    SceneSpec s;
    s.shop.view = {5, 4, 1, 1};
    s.black = ChipSpec{};
    s.chart = ChartSpec{};
    s.chart->place.turn_deg = turn;
    const Rendered r = render(s, 1);
    const Quad& board = r.truth.chart->board;
    for (const Quad& other : {r.regions.panels[0], r.regions.card.value(), r.regions.greys[0], r.regions.black.value()}) EXPECT_FALSE(overlap(other, board));
    for (const PatchTruth& patch : r.truth.chart->patches) EXPECT_EQ(patch.hidden, 0);
    EXPECT_GT(std::sqrt(signedArea(board)), 0.1 * s.size.width);
    s.chart.reset();
    const Rendered without = render(s, 1);   // the rest of the scene does not move
    EXPECT_EQ(without.regions.panels, r.regions.panels);
    EXPECT_EQ(without.regions.black, r.regions.black);
  }
  SceneSpec placed;   // and where it is told to lie, the chip keeps away from it
  placed.black = ChipSpec{};
  placed.chart = ChartSpec{};
  placed.chart->place = {560, 420, 250, 0, 0};
  const Rendered told = render(placed, 1);
  EXPECT_NEAR(told.truth.chart->board.corners[0].x, 560, 1e-9);
  EXPECT_FALSE(overlap(told.truth.chart->board, told.regions.black.value()));
  SceneSpec full;
  full.panels[0].place = {5, 5, 890, 590, 0};
  full.card.place = full.greys[0].place = full.panels[0].place;
  full.chart = ChartSpec{};
  EXPECT_THROW(render(full, 1), std::invalid_argument);
}

TEST(Chart, besideTheMatOrOnItAndTurningWithIt) {
  SceneSpec s;
  s.size = {900, 600};
  const auto layout = readMatLayout(calibFolder(), "a4");
  ASSERT_TRUE(layout.has_value());
  s.mat = MatSpec{.layout = *layout};
  s.greys.resize(2);
  s.chart = ChartSpec{};
  EXPECT_THROW(render(s, 1), std::invalid_argument);   // the page takes up the picture
  s.mat->px_per_mm = 1.9;
  s.mat->centre = Point{300, 300};
  const Rendered beside = render(s, 1);
  EXPECT_FALSE(overlap(beside.truth.chart->board, beside.truth.paper->quad));
  s.chart->place = {250, 300, 150, 0, 12};
  s.shop.camera.full_well = 0;
  const Rendered on = render(s, 1), turned = render(halfTurned(s), 1);
  EXPECT_LT(green(on, at(*on.truth.chart, 3, 2)), 0.06);
  for (std::size_t i = 0; i < 24; ++i) {
    const Point a = centre(on.truth.chart->patches[i].quad), b = centre(turned.truth.chart->patches[i].quad);
    expectPointNear(b, {600 - a.x, 600 - a.y}, 1e-6);
    EXPECT_NEAR(green(on, a), green(turned, b), 0.01);
  }
}

TEST(Chart, withoutACardThereIsNone) {
  SceneSpec s;
  s.has_card = false;
  const Rendered r = render(s, 1);
  EXPECT_FALSE(r.regions.card.has_value());
  EXPECT_LT(deltaE2000(r.truth.card.lab, cardLab(s.card)), 1e-9);
  EXPECT_THROW(swapped(s), std::invalid_argument);
}

TEST(ChartScene, theWholeBoardIsInThePictureInEveryTurnTiltAndSize) {
  ChartSceneOptions options;
  options.size = {600, 400};
  options.cover_chance = options.glare_chance = 0.5;
  double narrowest = 1, widest = 0, steepest = 0;
  std::set<int> quadrants;
  bool cluttered = false;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    const SceneSpec s = chartScene(seed, options);
    const Perspective perspective(s.shop.view, s.size);
    const Quad board = toPicture(perspective, cornersOf(s.chart->place));
    EXPECT_TRUE(isConvex(board));
    for (const Point p : board.corners) {
      EXPECT_TRUE(p.x > 0 && p.y > 0 && p.x < 600 && p.y < 400) << seed;
    }
    const double side = 0.5 * (std::hypot(board.corners[1].x - board.corners[0].x, board.corners[1].y - board.corners[0].y) +
                               std::hypot(board.corners[2].x - board.corners[3].x, board.corners[2].y - board.corners[3].y));
    narrowest = std::min(narrowest, side / 600);
    widest = std::max(widest, side / 600);
    steepest = std::max(steepest, std::hypot(s.shop.view.tilt_deg, s.shop.view.turn_deg));
    quadrants.insert(static_cast<int>(std::floor(s.chart->place.turn_deg / 90)));
    cluttered = cluttered || s.clutter.size() > 20;
    EXPECT_TRUE(s.panels.empty());
  }
  EXPECT_LT(narrowest, 0.16);
  EXPECT_GT(narrowest, 0.09);   // the longer side can be the foreshortened one
  EXPECT_GT(widest, 0.5);
  EXPECT_LT(widest, 0.72);
  EXPECT_GT(steepest, 30);
  EXPECT_LE(steepest, 35);
  EXPECT_EQ(quadrants.size(), 4U);
  EXPECT_TRUE(cluttered);
}

TEST(ChartScene, coversHideOneToSixPatches) {
  ChartSceneOptions options;
  options.size = {300, 200};
  options.cover_chance = 1;
  options.most_clutter = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const Rendered r = render(chartScene(seed, options), seed);
    const auto hidden = std::ranges::count_if(r.truth.chart->patches, [](const PatchTruth& p) { return p.hidden > 0.4; });
    EXPECT_GE(hidden, 1) << seed;
    EXPECT_LE(hidden, 6) << seed;
  }
}

TEST(ChartScene, sameSeedSamePicture) {
  ChartSceneOptions options;
  options.size = {300, 200};
  const Rendered a = render(chartScene(9, options), 9), b = render(chartScene(9, options), 9), c = render(chartScene(10, options), 9);
  EXPECT_EQ(a.linear, b.linear);
  EXPECT_NE(a.linear, c.linear);
  EXPECT_FALSE(a.regions.card.has_value());
}

}  // namespace
}  // namespace huewright::render
