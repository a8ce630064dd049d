// The mat in the scene renderer, and what can be done with it.
#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "colour/delta_e.hpp"
#include "render/plane.hpp"
#include "render/scene.hpp"
#include "render_statistics.hpp"
#include "scene/mat_layout.hpp"

namespace huewright::render {
namespace {

SceneSpec matScene(const char* layout = "a4") {
  SceneSpec s;
  s.size = {900, 640};
  s.shop.camera.full_well = 0;
  s.shop.camera.exposure = 0.9;
  s.panels[0].finish.flake = s.card.finish.flake = 0;
  s.greys.resize(2);
  const auto read = readMatLayout(calibFolder(), layout);
  if (!read) throw std::runtime_error("no layout");
  s.mat = MatSpec{.layout = *read};
  s.mat->paper.fibre = 0;
  return s;
}

Point seen(const Rendered& r, Point mm) {
  const Vec3 v = r.truth.mat.value() * Vec3{mm.x, mm.y, 1};
  return {v[0] / v[2], v[1] / v[2]};
}

Quad quadOf(const Rendered& r, const MatRect& mm, double inset_mm = 0) {
  const double left = mm.x + inset_mm, top = mm.y + inset_mm, right = mm.x + mm.width - inset_mm, bottom = mm.y + mm.height - inset_mm;
  return {{seen(r, {left, top}), seen(r, {right, top}), seen(r, {right, bottom}), seen(r, {left, bottom})}};
}

void expectQuadNear(const Quad& a, const Quad& b, double tolerance) {
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(a.corners[i].x, b.corners[i].x, tolerance);
    EXPECT_NEAR(a.corners[i].y, b.corners[i].y, tolerance);
  }
}

MatRect window(const SceneSpec& s, MatWindowKind kind, int index) { return windowOf(s.mat->layout, {kind, index}).value(); }

TEST(RenderMat, thingsLieInTheWindowsAtAnyTurn) {
  for (const double turn : {0.0, 37.0, 180.0}) {
    SceneSpec s = matScene();
    s.panels.resize(2);
    s.panels[1].paint.coats = 7;
    s.black = ChipSpec{};
    s.mat->turn_deg = turn;
    s.shop.view = {6, -5, 2, 1};
    const Rendered r = render(s, 1);
    expectQuadNear(r.regions.panels[0], quadOf(r, window(s, MatWindowKind::Panel, 0), 1), 1e-6);
    expectQuadNear(r.regions.panels[1], quadOf(r, window(s, MatWindowKind::Panel, 1), 1), 1e-6);
    expectQuadNear(r.regions.card.value(), quadOf(r, window(s, MatWindowKind::Card, 0), 1), 1e-6);
    expectQuadNear(r.regions.greys[1], quadOf(r, window(s, MatWindowKind::Grey, 1), 1), 1e-6);
    expectQuadNear(r.regions.black.value(), quadOf(r, window(s, MatWindowKind::Black, 0), 1), 1e-6);
    EXPECT_LT(brightness(r, r.regions.black.value()), 0.02);
    EXPECT_GT(signedArea(r.regions.panels[0]), 0);
    // A marker's border is ink, the paper beside it is not, and an empty window shows paper.
    const MatMarker& m = s.mat->layout.markers[0];
    EXPECT_LT(green(r, seen(r, {m.x + m.side / 2, m.y + m.side / 12})), 0.1);
    EXPECT_GT(green(r, seen(r, {m.x + m.side / 2, m.y - 2})), 0.65);
    EXPECT_GT(brightness(r, quadOf(r, window(s, MatWindowKind::Panel, 3))), 0.7);
  }
}

TEST(RenderMat, printHasItsReflectanceUnderEvenLight) {
  SceneSpec s = matScene();
  s.shop.camera.balance = Balance::Lamp;
  s.shop.camera.blur = 0;
  s.drop_shadows = false;
  const Rendered r = render(s, 1);
  EXPECT_NEAR(r.truth.paper->y, 0.84, 1e-9);
  EXPECT_LT(r.truth.paper->lab.b, -2);   // brightener
  EXPECT_GT(r.truth.paper->lab.b, -9);
  const double paper = brightness(r, quadOf(r, window(s, MatWindowKind::Panel, 3)));
  EXPECT_NEAR(paper, 0.9 * 0.84, 0.01);
  EXPECT_NEAR(brightness(r, r.regions.greys[0]), 0.9 * 0.19, 0.003);
  for (const Point& dot : s.mat->layout.dots.centres) EXPECT_NEAR(green(r, seen(r, dot)) / paper, 0.30 / 0.84, 0.01);
  const MatMarker& m = s.mat->layout.markers[1];
  EXPECT_NEAR(green(r, seen(r, {m.x + m.side / 2, m.y + m.side / 12})), 0.9 * 0.04, 0.005);
  const Rendered plain = plainSheet(s, 2);
  EXPECT_NEAR(brightness(plain, quadOf(r, window(s, MatWindowKind::Panel, 3))), paper, 1e-6);
  EXPECT_NEAR(green(plain, {1, 1}), paper, 1e-6);
}

TEST(RenderMat, fibresAreAsRoughAsAsked) {
  SceneSpec s = matScene();
  s.mat->paper.fibre = 0.01;
  s.shop.camera.blur = 0;
  const Statistics paper = statisticsOf(plainSheet(s, 1), {{{{0, 0}, {900, 0}, {900, 640}, {0, 640}}}});
  EXPECT_NEAR(paper.sd[1] / paper.mean[1], 0.01, 0.001);
}

TEST(RenderMat, plainSheetShowsTheLight) {
  SceneSpec s = matScene();
  s.shop.lamp.falloff = 0.2;
  s.shop.lamp.direction_deg = 0;
  s.shop.bench = Bench::DarkCloth;
  const Rendered all = plainSheet(s, 1);
  EXPECT_NEAR(green(all, {2, 320}) / green(all, {897, 320}), 1.1 / 0.9, 0.003);
  const Rendered part = plainSheet(s, 1, Place{300, 200, 300, 200, 0});
  EXPECT_NEAR(green(part, {450, 300}), green(all, {450, 300}), 1e-6);
  EXPECT_LT(green(part, {100, 300}), 0.2);
}

TEST(RenderMat, theVeilLiesOnTheChipAndThePanelButNotOnThePaper) {
  SceneSpec s = matScene();
  s.black = ChipSpec{};
  s.shop.camera.matrix = false;
  s.shop.camera.exposure = 0.8;
  const Rendered a = render(s, 1);
  s.shop.veil = 0.01;
  const Rendered b = render(s, 1);
  s.black->glossy = false;
  const Rendered c = render(s, 1);
  const auto risen = [&](const Rendered& r, const Quad& quad) { return brightness(r, quad) - brightness(a, quad); };
  EXPECT_NEAR(risen(b, a.regions.panels[0]), 0.008, 1e-4);
  EXPECT_NEAR(risen(b, a.regions.black.value()), 0.008, 1e-4);
  EXPECT_NEAR(risen(c, a.regions.black.value()), 0, 1e-6);
  EXPECT_NEAR(risen(b, quadOf(a, window(s, MatWindowKind::Panel, 3))), 0, 1e-6);
  EXPECT_NEAR(a.truth.black->y, 0.004, 1e-9);
}

TEST(RenderMat, theChipFindsAFreePlaceWithoutAMat) {
  SceneSpec s;
  s.black = ChipSpec{};
  const Rendered r = render(s, 1);
  for (const Quad& other : {r.regions.panels[0], r.regions.card.value(), r.regions.greys[0]}) EXPECT_FALSE(overlap(other, r.regions.black.value()));
  EXPECT_LT(brightness(r, r.regions.black.value()), 0.02);
}

TEST(RenderMat, printedToAnotherScaleTheMarkersMoveAndThePageDoesNot) {
  SceneSpec s = matScene();
  const Rendered a = render(s, 1);
  s.mat->print_scale_x = 0.95;
  const Rendered b = render(s, 1);
  EXPECT_EQ(a.truth.paper->quad, b.truth.paper->quad);
  const MatMarker& m = s.mat->layout.markers[0];
  const double middle = s.mat->layout.width / 2;
  const Point was = seen(a, {m.x + 1, m.y + m.side / 2}), is = seen(b, {m.x + 1, m.y + m.side / 2});
  EXPECT_NEAR(is.x - was.x, 0.05 * (middle - m.x - 1) * pxPerMm(*s.mat, s.size), 1e-6);
  EXPECT_NEAR(is.y, was.y, 1e-6);
  EXPECT_LT(green(a, was), 0.1);
  EXPECT_GT(green(b, was), 0.6);
  EXPECT_LT(green(b, is), 0.1);
}

TEST(RenderMat, theStripsPanelIsSeenThroughItsAperture) {
  SceneSpec s = matScene("a4-strip");
  const Rendered r = render(s, 1);
  expectQuadNear(r.regions.panels[0], quadOf(r, *s.mat->layout.aperture), 1e-6);
  EXPECT_FALSE(r.regions.card.has_value());
  EXPECT_LT(deltaE2000(r.truth.card.lab, cardLab(s.card)), 1e-9);
  const Point corner = seen(r, {0, 0});   // cut out: the sheet is all there is
  EXPECT_NEAR(corner.x, r.truth.paper->quad.corners[0].x, 1e-6);
}

TEST(RenderMat, dirtStaysOnTheSheet) {
  SceneSpec s = matScene();
  s.mat->dirt = 6;
  s.mat->dirt_seed = 5;
  const Rendered dirty = render(s, 1), turned = render(halfTurned(s), 2);
  s.mat->dirt = 0;
  const Rendered clean = render(s, 1);
  ASSERT_EQ(dirty.truth.dirt.size(), 6U);
  for (std::size_t i = 0; i < 6; ++i) {
    const Smudge& smudge = dirty.truth.dirt[i];
    EXPECT_NEAR(turned.truth.dirt[i].at.x, s.size.width - smudge.at.x, 1e-6);
    EXPECT_GE(smudge.radius, 1.5 * pxPerMm(*s.mat, s.size) * 0.999);
    bool covered = false;
    for (const Quad& q : {dirty.regions.panels[0], dirty.regions.card.value(), dirty.regions.greys[0], dirty.regions.greys[1]})
      covered = covered || contains(q, smudge.at);
    const auto sum = [&](const Rendered& r) {
      const std::size_t at = 3 * (static_cast<std::size_t>(smudge.at.y) * r.size.width + static_cast<std::size_t>(smudge.at.x));
      return r.linear[at] + r.linear[at + 1] + r.linear[at + 2];
    };
    if (!covered) { EXPECT_LT(sum(dirty), 0.99f * sum(clean)) << i; }
  }
}

TEST(RenderMat, aWindowThatIsNotThereIsAnError) {
  SceneSpec s = matScene();
  s.panels.resize(5);
  EXPECT_THROW(render(s, 1), std::invalid_argument);
  SceneSpec strip = matScene("a4-strip");
  EXPECT_THROW(swapped(strip), std::invalid_argument);
  strip.black = ChipSpec{};
  EXPECT_THROW(render(strip, 1), std::invalid_argument);
}

}  // namespace
}  // namespace huewright::render
