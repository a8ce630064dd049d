// The second renderer's scenes and files. Their physics is tested here; nothing is ever tuned on them.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

#include "colour/delta_e.hpp"
#include "colour/rgb.hpp"
#include "photo/photo.hpp"
#include "render2/scene.hpp"
#include "temp_dir.hpp"

namespace huewright::render2 {
namespace {

// Without noise, lens faults and mirrors, and with even films; both things are painted over the white ground.
Spec quiet() {
  Spec s;
  s.size = {400, 272};
  s.camera.full_well = 0;
  s.camera.blur = 0;
  s.camera.vignetting = 0;
  s.room = 0;
  s.panel_finish = s.card_finish = {0, 0, 0, 0, 0};
  s.card.paint = s.panel;
  s.card.reflectance = reflectance(s.panel);
  return s;
}

std::size_t pixelAt(const Spec& spec, Point at) {
  return 3 * (static_cast<std::size_t>(at.y) * static_cast<std::size_t>(spec.size.width) + static_cast<std::size_t>(at.x));
}

TEST(Render2Light, fallsOffWithTheSquareInThePicture) {
  Spec s = quiet();
  s.light = {"led 4500", {0, -60, 80}, 0, 0, 0, 0, 0, 25};
  s.grey_place = {{0, 0}, 42, 28, 0};
  s.panel_place = {{-60, 0}, 10, 10, 0};
  s.card_place = {{60, 0}, 10, 10, 0};
  const auto sensor = onSensor(s, 1);
  const View view(s.view, s.size);
  // A bare point of light: cosine over distance squared, both from its height h above the plane: h / d³.
  const auto wanted = [](Point p) { return 80 / std::pow(p.x * p.x + (p.y + 60) * (p.y + 60) + 80 * 80, 1.5); };
  const auto seen = [&](Point p) { return static_cast<double>(sensor[pixelAt(s, view.toPicture(p)) + 1]); };
  for (const Point p : {Point{0, -12}, Point{0, 12}, Point{-18, 0}, Point{15, 10}})
    EXPECT_NEAR(seen(p) / seen({0, 0}), wanted(p) / wanted({0, 0}), 0.003) << p.x << " " << p.y;   // half a pixel
}

TEST(Render2Light, theLensDarkensWithTheFourthPowerOfTheCosine) {
  Spec plain = quiet(), dark = plain;
  dark.camera.vignetting = 1;
  const auto a = onSensor(plain, 1), b = onSensor(dark, 1);
  const View view(plain.view, plain.size);
  for (const Point p : {Point{200.5, 136.5}, Point{3.5, 3.5}, Point{390.5, 100.5}}) {
    const auto i = pixelAt(plain, p) + 1;
    EXPECT_NEAR(static_cast<double>(b[i] / a[i]), std::pow(view.cosOffAxis(p), 4), 1e-5);
  }
  const double half = std::hypot(22, 22 * 0.68), slant = std::atan(half / std::hypot(75, 6));   // the corner's distance from the axis, cm
  EXPECT_NEAR(view.cosOffAxis({0, 0}), std::cos(slant), 1e-9);
}

TEST(Render2Scene, sameSeedSamePicture) {
  Spec s = randomSpec(3, {1, CardKind::Same, false, false});
  s.size = {300, 204};
  const Rendered a = render(s, 5), b = render(s, 5), c = render(s, 6);
  EXPECT_EQ(a.linear, b.linear);
  EXPECT_NE(a.linear, c.linear);
  const auto grey = pixelAt(s, centre(a.regions.greys[0]));   // which has no texture: noise alone
  EXPECT_NE(a.linear[grey], c.linear[grey]);
  EXPECT_EQ(randomSpec(3).panel.share, randomSpec(3).panel.share);
  EXPECT_NE(randomSpec(3).panel.share, randomSpec(4).panel.share);
}

// Figures stated on it hold for these scenes and no others. Source: this renderer when it was frozen, alike with two sets of compiler options.
TEST(Render2Scene, isFrozen) {
  struct Row {
    CardKind kind;
    double L, a, card_b, light, code;   // means of the linear values and of the codes
  };
  constexpr Row kRows[] = {{CardKind::Same, 25.320292, 15.715913, -10.838390, 0.4446835, 178.6802},
                           {CardKind::Similar, 44.845592, 9.903992, 13.579885, 0.1219460, 109.8699},
                           {CardKind::Printed, 37.394110, 20.931331, 10.889022, 0.2859644, 142.2272},
                           {CardKind::Other, 48.812951, -33.798955, 16.169739, 0.3979172, 165.7459}};
  for (std::uint64_t i = 0; i < std::size(kRows); ++i) {
    const Row& row = kRows[i];
    Spec s = randomSpec(1 + i, {2, row.kind, i % 2 == 1, i == 2});
    s.size = {s.size.width / 4, s.size.height / 4};
    const Rendered r = render(s, 1);
    EXPECT_NEAR(r.truth.panel.L, row.L, 1e-4) << i;
    EXPECT_NEAR(r.truth.panel.a, row.a, 1e-4) << i;
    EXPECT_NEAR(r.truth.card.b, row.card_b, 1e-4) << i;
    double light = 0, code = 0;
    for (const float v : r.linear) light += static_cast<double>(v) / static_cast<double>(r.linear.size());
    for (const std::uint8_t v : finished(s.tone, s.size, r.linear)) code += static_cast<double>(v) / static_cast<double>(r.linear.size());
    EXPECT_NEAR(light, row.light, 1e-5) << i;
    EXPECT_NEAR(code, row.code, 0.01) << i;
  }
}

TEST(Render2Scene, truthIsOfTheBodiesAndRegionsAreInThePicture) {
  for (const bool chart : {false, true})
    for (std::uint64_t seed = 10; seed < 14; ++seed) {
      Spec s = randomSpec(seed, {1, CardKind::Same, seed % 2 == 0, chart});
      s.size = {s.size.width / 4, s.size.height / 4};
      const Rendered r = render(s, seed);
      EXPECT_NEAR(r.truth.de00, 1, 0.02) << seed;
      EXPECT_LT(deltaE2000(r.truth.panel, labOf(s.panel)), 0.03);   // an uneven film has the mean that was meant
      EXPECT_LT(deltaE2000(r.truth.card, labD50(s.card.reflectance)), 0.03);
      EXPECT_NEAR(r.truth.grey_y, s.grey.y, 1e-9);
      EXPECT_EQ(r.chart.has_value(), chart);
      std::vector<Quad> quads{r.regions.panels[0], *r.regions.card, r.regions.greys[0]};
      if (r.chart) quads.push_back(*r.chart);
      for (std::size_t i = 0; i < quads.size(); ++i) {
        EXPECT_GT(signedArea(quads[i]), 0);
        for (const Point& p : quads[i].corners) {
          EXPECT_GT(p.x, 0);
          EXPECT_GT(p.y, 0);
          EXPECT_LT(p.x, s.size.width);
          EXPECT_LT(p.y, s.size.height);
        }
        for (std::size_t j = 0; j < i; ++j) EXPECT_FALSE(overlap(quads[i], quads[j])) << seed << " " << i << " " << j;
      }
    }
}

TEST(Render2Scene, aWhiteDiffuserHasTheExposureAndAGreyItsY) {
  Spec s = quiet();
  s.light.ambient = 0;
  s.grey = {1, 0};
  s.grey_place = {{0, 0}, 8, 8, 0};
  s.panel_place = {{-14, 0}, 8, 8, 0};
  s.card_place = {{14, 0}, 8, 8, 0};
  const auto white = onSensor(s, 1);
  s.grey = {0.19, 0};
  const auto grey = onSensor(s, 1);
  const View view(s.view, s.size);
  const Point middle = view.toPicture({0, 0});
  const auto i = pixelAt(s, middle);
  const double light = LightField(s.light).lamp(view.toPlace({std::floor(middle.x) + 0.5, std::floor(middle.y) + 0.5}));
  EXPECT_NEAR(static_cast<double>(std::max({white[i], white[i + 1], white[i + 2]})), 0.7 * light, 1e-6);
  for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(grey[i + c] / white[i + c], 0.19f, 1e-5f);
}

TEST(Render2Scene, atFortyFiveDegreesAndUprightThePanelLooksAsItsTruthIsDefined) {
  for (const Ground ground : kGrounds) {
    Spec s = quiet();
    s.light = {"triphosphor 4100", {0, -90, 90}, 0, 0, 0, 0, 0, 25};
    s.view.eye = {0, 0, 75};
    s.panel.ground = ground;
    s.panel_place = {{0, 0}, 12, 12, 0};
    s.card_place = {{-16, 0}, 8, 8, 0};
    s.grey_place = {{16, 0}, 8, 8, 0};
    const auto sensor = onSensor(s, 1);
    const Sensor eyes(s.camera.letter, lampSpectrum(s.light.lamp));
    const Vec3 white = eyes.raw(lampSpectrum(s.light.lamp), even(1)), body = eyes.raw(lampSpectrum(s.light.lamp), reflectance(s.panel));
    const double scale = 0.7 / std::max({white[0], white[1], white[2]});
    // The flakes' grain is there: the mean of 11 × 11 pixels, within three of its standard deviations and half a pixel of slant.
    for (std::size_t c = 0; c < 3; ++c) {
      double sum = 0;
      for (int dy = -5; dy <= 5; ++dy)
        for (int dx = -5; dx <= 5; ++dx) sum += static_cast<double>(sensor[pixelAt(s, {200.0 + dx, 136.0 + dy}) + c]);
      EXPECT_NEAR(sum / 121 / (scale * body[c]), 1, 0.003 + 3 * render2::body(ground).sparkle / 11) << nameOf(ground);
    }
  }
}

TEST(Render2Scene, glossyThingsMirrorTheRoomByFresnelsPart) {
  Spec plain = quiet(), glossy = plain;
  glossy.panel_finish.gloss = 1;
  glossy.room = 0.1;
  plain.panel_finish.gloss = 1e-9;   // the same way through the program
  const auto a = onSensor(plain, 1), b = onSensor(glossy, 1);
  const View view(plain.view, plain.size);
  const auto panel = pixelAt(plain, view.toPicture(plain.panel_place.middle)), grey = pixelAt(plain, view.toPicture(plain.grey_place.middle));
  const double added = static_cast<double>(b[panel + 1] - a[panel + 1]) / 0.7;
  EXPECT_NEAR(added, 0.1 * fresnel(view.toEye(plain.panel_place.middle)[2]), 4e-4);   // G may not be the fullest channel
  EXPECT_EQ(b[grey], a[grey]);
}

TEST(Render2File, thePicturesAreReadAsTheyWereWritten) {
  const fixtures::TempDir folder;
  for (const bool linear : {false, true}) {
    Spec s = quiet();
    s.tone.linear = s.camera.p3 = linear;
    s.tone.quality = 95;
    const Rendered r = render(s, 1);
    const auto path = folder.path() / (linear ? "a.tif" : "a.jpg");
    writePicture(path, r);
    auto photo = Photo::open(path);
    ASSERT_TRUE(photo.has_value());
    EXPECT_EQ(photo->size(), s.size);
    const Point at = centre(r.regions.panels[0]);
    const Rect one[] = {{static_cast<int>(at.x), static_cast<int>(at.y), 1, 1}};
    const auto pixels = photo->pixels(one);
    ASSERT_TRUE(pixels.has_value());
    const auto i = pixelAt(s, at);
    const Vec3 rgb{static_cast<double>(r.linear[i]), static_cast<double>(r.linear[i + 1]), static_cast<double>(r.linear[i + 2])};
    const Vec3 wanted = rgbToXyzD50(r.p3 ? kP3D65Primaries : kSrgbPrimaries) * rgb;
    // The TIFF: half a code and the profile's numbers of 16 bits. The JPEG: two codes of 8 bits at a light of 0.15.
    for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(static_cast<double>(pixels->front().xyz[c]), wanted[c], linear ? 5e-5 : 4e-3);
    std::ifstream first(path, std::ios::binary);
    const std::string before{std::istreambuf_iterator<char>(first), {}};
    writePicture(path, r);
    std::ifstream second(path, std::ios::binary);
    EXPECT_EQ(before, (std::string{std::istreambuf_iterator<char>(second), {}}));
    EXPECT_NE(before.find("Simulated"), std::string::npos);
    EXPECT_NE(before.find("Camera F"), std::string::npos);
    EXPECT_NE(before.find(std::string("\x07\xe8\0\1\0\1\0\0\0\0\0\0", 12)), std::string::npos);   // the profile's date is a fixed one
  }
  EXPECT_THROW(writePicture(folder.path() / "none" / "a.jpg", render(quiet(), 1)), std::runtime_error);
}

}  // namespace
}  // namespace huewright::render2
