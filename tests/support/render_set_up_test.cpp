// Stepped panels, exchanged and turned set-ups, and a phone's tone mapping in the scene renderer.
#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "colour/delta_e.hpp"
#include "render/scene.hpp"
#include "render_statistics.hpp"
#include "scene/mat_layout.hpp"

namespace huewright::render {
namespace {

SceneSpec quietSetUp() {
  SceneSpec s;
  s.size = {600, 420};
  s.shop.camera.full_well = 0;
  s.panels[0].finish.flake = s.card.finish.flake = 0;
  return s;
}

SceneSpec quietMat() {
  SceneSpec s = quietSetUp();
  const auto read = readMatLayout(calibFolder(), "a4");
  if (!read) throw std::runtime_error("no layout");
  s.mat = MatSpec{.layout = *read};
  return s;
}

double lineAt(const Rendered& r, double x, double y) {
  return brightness(r, {{{{x - 20, y - 1}, {x + 20, y - 1}, {x + 20, y + 1}, {x - 20, y + 1}}}});
}

TEST(Steps, everyStripIsThePaintWithItsCoats) {
  SceneSpec s = quietSetUp();
  PanelSpec& panel = s.panels[0];
  panel.place = {60, 40, 200, 320, 0};
  panel.finish.mottle = 0.01;
  panel.steps = {0, 1, 2, 4};
  panel.step_widths = {1, 1, 1, 2};
  panel.tape = {5, 0.25, 0.5};
  const Rendered r = render(s, 3);
  const auto& strips = r.truth.panels[0].strips;
  ASSERT_EQ(strips.size(), 4U);
  for (std::size_t k = 0; k < 4; ++k) {
    Paint paint = panel.paint;
    paint.coats = panel.steps[k];
    EXPECT_LT(deltaE2000(strips[k].lab, labOf(paint)), 0.25) << k;
    EXPECT_NEAR(strips[k].quad.corners[0].y, 40 + 64.0 * static_cast<double>(k), 1e-6);
    if (k > 0) { EXPECT_LT(brightness(r, strips[k].quad), 0.95 * brightness(r, strips[k - 1].quad)); }
  }
  EXPECT_NEAR(strips[3].quad.corners[2].y, 360, 1e-6);
  // The tape's line is brighter than both of its sides.
  EXPECT_GT(lineAt(r, 160, 168), 1.1 * lineAt(r, 160, 160));
  EXPECT_GT(lineAt(r, 160, 168), 1.1 * lineAt(r, 160, 176));
}

TEST(Steps, runAlongTheLongerSide) {
  SceneSpec s = quietSetUp();
  s.panels[0].place = {40, 60, 280, 150, 0};
  s.panels[0].steps = {0, 5};
  s.card.place = {380, 60, 150, 150, 0};
  const Rendered r = render(s, 1);
  const auto& strips = r.truth.panels[0].strips;
  EXPECT_NEAR(strips[0].quad.corners[1].x, 180, 1e-6);
  EXPECT_NEAR(strips[1].quad.corners[3].x, 180, 1e-6);
  EXPECT_GT(strips[0].lab.L, strips[1].lab.L + 10);
  EXPECT_GT(brightness(r, strips[0].quad), 1.3 * brightness(r, strips[1].quad));
  const Rendered turned = render(halfTurned(s), 1);   // the strips turn with their panel
  EXPECT_GT(centre(turned.truth.panels[0].strips[0].quad).x, centre(turned.truth.panels[0].strips[1].quad).x);
  EXPECT_GT(brightness(turned, turned.truth.panels[0].strips[0].quad), 1.3 * brightness(turned, turned.truth.panels[0].strips[1].quad));
}

TEST(Steps, oneStepIsAPlainPanel) {
  SceneSpec s = quietSetUp();
  const Rendered plain = render(s, 1);
  s.panels[0].steps = {s.panels[0].paint.coats};
  const Rendered one = render(s, 1);
  EXPECT_EQ(plain.linear, one.linear);
  EXPECT_EQ(plain.truth.panels[0].surface.lab, one.truth.panels[0].strips[0].lab);
}

TEST(SetUp, panelAndCardExchangePlaces) {
  for (const bool on_mat : {false, true}) {
    SceneSpec s = on_mat ? quietMat() : quietSetUp();
    s.panels[0].paint.coats = 8;
    const Rendered before = render(s, 1), after = render(swapped(s), 1);
    const Point panel = centre(before.regions.panels[0]), card = centre(before.regions.card.value());
    EXPECT_NEAR(centre(after.regions.panels[0]).x, card.x, 1e-6);
    EXPECT_NEAR(centre(after.regions.card.value()).x, panel.x, 1e-6);
    EXPECT_LT(deltaE2000(before.truth.panels[0].surface.lab, after.truth.panels[0].surface.lab), 0.05);
    EXPECT_NEAR(brightness(after, after.regions.panels[0]), brightness(before, before.regions.panels[0]), 0.002);
    EXPECT_EQ(render(swapped(swapped(s)), 1).regions.panels, before.regions.panels);
  }
  SceneSpec s = quietSetUp();
  s.panels[0].place = {50, 50, 200, 200, 3};
  s.card.place = {350, 80, 120, 150, -2};
  const SceneSpec other = swapped(s);
  EXPECT_NEAR(other.card.place.x + 60, 150, 1e-9);
  EXPECT_EQ(other.card.place.width, 120);
  EXPECT_EQ(other.card.place.turn_deg, 3);
}

TEST(SetUp, halfATurnPutsThingsOppositeAndKeepsTheLight) {
  for (const bool on_mat : {false, true}) {
    SceneSpec s = on_mat ? quietMat() : quietSetUp();
    s.shop.lamp.falloff = 0.2;
    s.shop.lamp.direction_deg = 0;
    const Rendered before = render(s, 1), after = render(halfTurned(s), 1);
    const Quad &a = before.regions.panels[0], &b = after.regions.panels[0];
    for (std::size_t i = 0; i < 4; ++i) {
      EXPECT_NEAR(b.corners[i].x, s.size.width - a.corners[i].x, 1e-6);
      EXPECT_NEAR(b.corners[i].y, s.size.height - a.corners[i].y, 1e-6);
    }
    const double level = (centre(a).x - centre(b).x) / s.size.width * -0.2;
    EXPECT_NEAR(brightness(before, a) / brightness(after, b) - 1, level, 0.01);
  }
}

// Like paints that differ by where they lie along the light alone: their difference changes its sign.
TEST(SetUp, theFlakesErrorChangesSign) {
  for (const bool on_mat : {false, true}) {
    SceneSpec s = on_mat ? quietMat() : quietSetUp();
    s.panels[0].finish.flake = s.card.finish.flake = 1;
    s.panels[0].finish.mottle = s.card.finish.mottle = 0;
    s.shop.lamp.direction_deg = 0;
    const auto error = [](const SceneSpec& scene) {
      const Rendered r = render(scene, 1);
      return std::log(brightness(r, r.regions.panels[0]) / brightness(r, r.regions.card.value()));
    };
    const double straight = error(s), turned = error(halfTurned(s)), exchanged = error(swapped(s));
    EXPECT_GT(straight, 0.02);
    EXPECT_LT(exchanged, -0.02);
    EXPECT_NEAR(straight + exchanged, 0, 0.004);
    EXPECT_NEAR(straight + turned, 0, 0.004);
  }
}

TEST(SetUp, glareStaysWhereTheLampMirrorsIt) {
  SceneSpec s = quietSetUp();
  s.panels[0].finish.glare = {{0.2, 0.3}};
  const SceneSpec turned = halfTurned(s), exchanged = swapped(s);
  EXPECT_NEAR(turned.panels[0].finish.glare[0].x, 0.8, 1e-12);
  EXPECT_NEAR(turned.panels[0].finish.glare[0].y, 0.7, 1e-12);
  EXPECT_TRUE(exchanged.panels[0].finish.glare.empty());
  EXPECT_EQ(exchanged.card.finish.glare.size(), 1U);
}

TEST(LocalTone, lightensDarkPartsAndDarkensBrightOnes) {
  SceneSpec s = quietMat();
  s.shop.camera.exposure = 0.6;
  s.shop.lamp.falloff = 1;
  s.shop.lamp.direction_deg = 0;
  s.mat->paper.fibre = 0;
  s.shop.camera.blur = 0;
  const auto ratio = [&](double strength, bool linear) {
    if (linear) s.shop.style = linearStyle();
    s.shop.style.local_tone = strength;
    Rendered r = render(s, 1);
    r.linear = readBack(r.style, r.size, r.linear);
    const auto dot = [&](std::size_t i) {   // XYZ: the middle channel is Y
      const Point& at = s.mat->layout.dots.centres[i];
      const Vec3 v = r.truth.mat.value() * Vec3{at.x, at.y, 1};
      const double x = v[0] / v[2], y = v[1] / v[2];
      return brightness(r, {{{{x - 2, y - 2}, {x + 2, y - 2}, {x + 2, y + 2}, {x - 2, y + 2}}}});
    };
    return dot(2) / dot(10);   // the outermost panels'
  };
  const double plain = ratio(0, false), half = ratio(0.5, false), full = ratio(1, false);
  EXPECT_LT(half, 0.95 * plain);
  EXPECT_LT(full, 0.95 * half);
  EXPECT_GT(full, 1);
  EXPECT_NEAR(ratio(1, true) / ratio(0, true), 1, 1e-12);   // linear files have none
}

TEST(LocalTone, anEvenPictureStaysAsItIs) {
  const std::vector<float> even(3 * 200 * 120, 0.3f);
  for (const float v : locallyToned(1, {200, 120}, even)) EXPECT_NEAR(v, 0.3f, 1e-6f);
}

}  // namespace
}  // namespace huewright::render
