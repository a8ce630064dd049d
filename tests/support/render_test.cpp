// The scene renderer itself: its truth must be true, or nothing measured against it means anything.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "colour/delta_e.hpp"
#include "render/plane.hpp"
#include "render/scene.hpp"
#include "render_statistics.hpp"

namespace huewright::render {
namespace {

SceneSpec quietScene() {
  SceneSpec s;
  s.size = {450, 300};
  s.shop.camera.full_well = 0;
  s.panels[0].finish.flake = s.card.finish.flake = 0;
  return s;
}

TEST(Spectra, aPerfectDiffuserIsWhiteUnderD50) {
  const Lab<D50> white = labUnderD50(flat(1));
  EXPECT_NEAR(white.L, 100, 1e-9);
  EXPECT_NEAR(white.a, 0, 1e-9);
  EXPECT_NEAR(white.b, 0, 1e-9);
}

// Chromaticities of CIE illuminants, 2° observer. Source: CIE 15:2018, tables T.3, T.8.1 and T.12.1.
TEST(Spectra, lampsHaveTheirPublishedChromaticity) {
  struct Row {
    const char* name;
    double x, y;
  };
  constexpr Row kRows[] = {{"A", 0.44758, 0.40745}, {"D65", 0.31272, 0.32903}, {"D50", 0.34567, 0.35851}, {"FL2", 0.3721, 0.3751},
                           {"FL11", 0.3805, 0.3769}, {"LED-B1", 0.4560, 0.4078}, {"LED-B3", 0.3756, 0.3723},
                           {"LED-B5", 0.3118, 0.3236}, {"LED-V1", 0.4548, 0.4044}};
  for (const Row& row : kRows) {
    const Vec3 w = whiteOf(illuminant(row.name));
    const double sum = w[0] + w[1] + w[2];
    EXPECT_NEAR(w[0] / sum, row.x, 6e-4) << row.name;   // cut off below 380 nm and 5 nm steps
    EXPECT_NEAR(w[1] / sum, row.y, 6e-4) << row.name;
  }
  EXPECT_NEAR(colourTemperature(illuminant("A")), 2856, 30);
  EXPECT_NEAR(colourTemperature(illuminant("D65")), 6504, 30);
}

TEST(Spectra, allDataAreThere) {
  EXPECT_EQ(surfaces190().size(), 190U);
  EXPECT_EQ(chart24().size(), 24U);
  for (const char camera : {'a', 'b', 'c'})
    for (const Spectrum& s : sensitivities(camera)) EXPECT_GT(*std::ranges::max_element(s), 0.1);
}

TEST(Paint, neverReflectsMoreThanArrivesNorLessThanNothing) {
  for (const Ground ground : kGrounds)
    for (const Pair pair : kPairs)
      for (const double share : {0.0, 0.3, 1.0})
        for (const double coats : {0.0, 0.5, 4.0, 20.0})
          for (const double r : reflectance({ground, pair, share, coats, 5, 1})) {
            EXPECT_GE(r, 0);
            EXPECT_LE(r, 0.96);   // the clear's surface takes 4 %
          }
}

TEST(Paint, noCoatsShowTheGroundWhateverTheTint) {
  for (const Ground ground : kGrounds) {
    const Lab<D50> bare = labOf({ground, Pair::TealAqua, 0.2, 0, 5, 1});
    for (const Pair pair : kPairs) EXPECT_LT(deltaE2000(bare, labOf({ground, pair, 0.9, 0, 3, 1})), 1e-9);
    const GroundBody& b = body(ground);
    Spectrum seen{};
    for (std::size_t i = 0; i < kBands; ++i) seen[i] = 0.96 * (1 - b.k2) * b.reflectance[i] / (1 - b.k2 * b.reflectance[i]);
    EXPECT_LT(deltaE2000(bare, labUnderD50(seen)), 1e-9);
  }
}

TEST(Paint, everyCoatDeepensAndFilmAndCarrierActAsCoats) {
  for (const Ground ground : kGrounds)
    for (const Pair pair : kPairs) {
      double before = 101;
      for (double coats = 0; coats <= 8; coats += 0.5) {
        const double L = labOf({ground, pair, 0.4, coats, 5, 1}).L;
        EXPECT_LT(L, before);
        before = L;
      }
    }
  const Lab<D50> plain = labOf({Ground::PaleGold, Pair::RedOrange, 0.4, 3, 5, 1});
  EXPECT_LT(deltaE2000(plain, labOf({Ground::PaleGold, Pair::RedOrange, 0.4, 2, 5, 1.5})), 1e-9);
  EXPECT_LT(deltaE2000(plain, labOf({Ground::PaleGold, Pair::RedOrange, 0.4, 6, 11, 1})), 1e-9);
}

TEST(Paint, otherStuffLooksTheSameUnderD50AndDiffersInSpectrum) {
  for (const Pair pair : kPairs) {
    const Paint paint{Ground::PearlWhite, pair, 0.33, 3, 5, 1};
    const Spectrum same = reflectance(paint);
    for (int set = 0; set < 4; ++set) {
      const Spectrum other = set < 3 ? otherPigments(labOf(paint), set) : printed(labOf(paint));
      EXPECT_LT(deltaE2000(labUnderD50(other), labOf(paint)), 0.01);
      double furthest = 0;
      for (std::size_t i = 0; i < kBands; ++i) furthest = std::max(furthest, std::abs(other[i] - same[i]));
      EXPECT_GT(furthest, 0.02);
    }
  }
}

TEST(Paint, greyHasItsLuminanceAndIsNearlyFlat) {
  const Spectrum g = grey(0.19, 0.015);
  EXPECT_NEAR(xyzUnderD50(g).Y, 0.19, 1e-12);
  for (const double v : g) EXPECT_NEAR(v / 0.19, 1, 0.03);
  const Lab<D50> lab = labUnderD50(g);
  EXPECT_LT(std::hypot(lab.a, lab.b), 1.0);
}

TEST(Solve, hitsTheDistanceThatIsAsked) {
  for (const Pair pair : kPairs)
    for (const Ground ground : kGrounds) {
      const Paint paint{ground, pair, 0.35, 3.5, 5, 1};
      const Lab<D50> card = labOf(paint);
      for (const double want : {0.0, 0.5, 1.0, 2.0, 4.0})
        for (const Side side : {Side::Weaker, Side::Stronger}) {
          if (const auto share = shareForDistance(paint, card, want, side)) {
            Paint p = paint;
            p.share = *share;
            EXPECT_NEAR(deltaE2000(labOf(p), card), want, 0.01);
            if (want > 0) { EXPECT_EQ(*share > 0.35, side == Side::Stronger); }
          }
          const auto coats = coatsForDistance(paint, card, want, side);
          ASSERT_TRUE(coats.has_value());
          Paint p = paint;
          p.coats = *coats;
          EXPECT_NEAR(deltaE2000(labOf(p), card), want, 0.01);
          if (want > 0) { EXPECT_EQ(*coats > 3.5, side == Side::Stronger); }
        }
      EXPECT_NEAR(bestShare(paint, card).value, 0.35, 1e-3);
      EXPECT_NEAR(bestCoats(paint, card).value, 3.5, 1e-3);
    }
  const Paint silver;
  EXPECT_FALSE(shareForDistance(silver, {20, 60, 40}, 1, Side::Stronger).has_value());
}

TEST(Camera, keepsNeutralsAndRendersSurfacesTolerably) {
  for (const char camera : {'a', 'c'})
    for (const double warm : {0.0, 1.0}) {
      const Spectrum& light = illuminant(warm > 0 ? "A" : "D65");
      const Mat3 m = cameraMatrix(camera, Space::Srgb, warm);
      for (const Vec3& row : m.row) EXPECT_NEAR(row[0] + row[1] + row[2], 1, 1e-12);
      const Sensor sensor(camera, light);
      const Vec3 white = sensor.raw(flat(1));
      double sum = 0;
      for (const Spectrum& s : chart24()) {
        const Vec3 raw = sensor.raw(s);
        const Vec3 xyz = rgbToXyzD50(kSrgbPrimaries) * (m * Vec3{raw[0] / white[0], raw[1] / white[1], raw[2] / white[2]});
        sum += deltaE2000(toLab(Xyz<D50>{xyz[0], xyz[1], xyz[2]}), labUnderD50(s));
      }
      EXPECT_LT(sum / 24, 6) << camera << warm;   // a real camera's matrix, and the lamp's own constancy error
    }
}

TEST(Camera, noiseHasTheSpreadThatIsAsked) {
  Camera camera;
  camera.iso = 800;
  camera.matrix = false;
  for (const double correlation : {0.0, 0.5}) {
    camera.noise_correlation = correlation;
    for (const double level : {0.0, 0.02, 0.2, 0.7}) {
      constexpr int kSide = 200;
      std::vector<float> rgb(3 * kSide * kSide, static_cast<float>(level));
      Random random(7);
      develop(camera, Development{}, kSide, rgb, random);
      double sum = 0, squares = 0;
      for (const float v : rgb) {
        sum += static_cast<double>(v);
        squares += static_cast<double>(v) * static_cast<double>(v);
      }
      const double count = static_cast<double>(rgb.size()), mean = sum / count;
      EXPECT_NEAR(mean, level, 2e-4);
      EXPECT_NEAR(std::sqrt(squares / count - mean * mean) / noiseSd(camera, level), 1, 0.02);
    }
  }
}

TEST(Scene, sameSeedSamePicture) {
  SceneSpec s = quietScene();
  s.shop = randomShop(3);
  const Rendered a = render(s, 5), b = render(s, 5), c = render(s, 6);
  EXPECT_EQ(a.linear, b.linear);
  EXPECT_NE(a.linear, c.linear);
}

TEST(Scene, aGreyIsEqualInAllChannelsAfterAnExactBalance) {
  for (const char* light : {"D65", "A", "FL11", "LED-B3"}) {
    SceneSpec s = quietScene();
    s.shop.lamp.light = light;
    s.shop.camera.balance = Balance::Grey;
    const Rendered r = render(s, 1);
    const Vec3 m = statisticsOf(r, r.regions.greys[0]).mean;
    EXPECT_NEAR(m[0] / m[1], 1, 1e-5) << light;
    EXPECT_NEAR(m[2] / m[1], 1, 1e-5) << light;
    EXPECT_NEAR(m[1], 0.8 * 0.19, 0.003) << light;   // exposure times luminance factor
  }
}

TEST(Scene, lightFallsOffAsAsked) {
  SceneSpec s = quietScene();
  s.shop.lamp.falloff = 0.2;
  s.shop.lamp.direction_deg = 0;
  s.greys.push_back({});
  const Rendered r = render(s, 1);
  const double left = statisticsOf(r, r.regions.greys[0]).mean[1], right = statisticsOf(r, r.regions.greys[1]).mean[1];
  const double apart = (centre(r.regions.greys[1]).x - centre(r.regions.greys[0]).x) / s.size.width;
  EXPECT_NEAR((left - right) / (0.5 * (left + right)), 0.2 * apart, 0.002);
  Lamp round;
  round.vignette = 0.1;
  const LightField field(round, {400, 300}, std::nullopt);
  EXPECT_NEAR(field.sum(200, 150), 1, 1e-12);
  EXPECT_NEAR(field.sum(0, 0), 0.9, 1e-12);
}

TEST(Scene, veilAndGlareAddWhite) {
  SceneSpec s = quietScene();
  s.panels[0].paint.coats = 8;
  s.shop.camera.matrix = false;
  const Rendered plain = render(s, 1);
  s.shop.veil = 0.01;
  const Rendered veiled = render(s, 1);
  s.panels[0].finish.glare = {{0.5, 0.5, 0.5, 0.5, 0.3, 0.2}};
  const Rendered shiny = render(s, 1);
  const Quad& panel = plain.regions.panels[0];
  const Vec3 a = statisticsOf(plain, panel).mean, b = statisticsOf(veiled, panel).mean, c = statisticsOf(shiny, panel, 0.2).mean;
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(b[i] - a[i], 0.01 * 0.8, 1e-4);
    EXPECT_NEAR(c[i] - b[i], 0.3 * 0.8, 5e-3);
  }
  const Vec3 grey_a = statisticsOf(plain, plain.regions.greys[0]).mean, grey_b = statisticsOf(veiled, plain.regions.greys[0]).mean;
  EXPECT_NEAR(grey_a[1], grey_b[1], 1e-6);
  EXPECT_EQ(plain.truth.panels[0].surface.lab, veiled.truth.panels[0].surface.lab);
}

TEST(Scene, truthIsThePaintsOwnColourDespiteMottleAndFlake) {
  SceneSpec s;
  s.size = {450, 300};
  s.panels[0].paint = {Ground::BrightSilver, Pair::TealAqua, 0.5, 4, 5, 1};
  s.panels[0].finish.mottle = 0.03;
  const Rendered r = render(s, 9);
  EXPECT_LT(deltaE2000(r.truth.panels[0].surface.lab, labOf(s.panels[0].paint)), 0.03);   // the curve's bend over ±3 % of film
  EXPECT_NEAR(r.truth.panels[0].de00, deltaE2000(labOf(s.panels[0].paint), labOf(s.card.paint)), 0.05);
  EXPECT_NEAR(r.truth.panels[0].best_share.value, s.card.paint.share, 0.01);
  EXPECT_NEAR(r.truth.greys[0].y, 0.19, 1e-9);
}

TEST(Scene, whatTheCameraSeesOfAPanelIsItsColour) {
  // A colorimetric check from end to end: white light, plain rendering, the camera's matrix the only error.
  SceneSpec s = quietScene();
  s.shop.camera.exposure = 1;
  s.shop.lamp.light = "D65";
  s.panels[0].paint = {Ground::BrightSilver, Pair::TealAqua, 0.2, 3, 5, 1};
  const Rendered r = render(s, 1);
  const Vec3 m = statisticsOf(r, r.regions.panels[0]).mean;
  const Vec3 xyz = rgbToXyzD50(kSrgbPrimaries) * m;
  EXPECT_LT(deltaE2000(toLab(Xyz<D50>{xyz[0], xyz[1], xyz[2]}), r.truth.panels[0].surface.lab), 5);
}

TEST(Scene, quadsLieWhereThePicturesEdgesAre) {
  SceneSpec s = quietScene();
  s.shop.view = {8, -6, 1.5, 1};
  s.shop.bench = Bench::WhitePaper;
  s.drop_shadows = false;
  s.shop.camera.blur = 0;
  const Rendered r = render(s, 1);
  const Quad& q = r.regions.panels[0];
  EXPECT_TRUE(isConvex(q));
  EXPECT_GT(signedArea(q), 0);
  const auto green = [&](Point p) {
    return r.linear[3 * (static_cast<std::size_t>(p.y) * r.size.width + static_cast<std::size_t>(p.x)) + 1];
  };
  const Point c = centre(q);
  for (std::size_t i = 0; i < 4; ++i) {
    const Point p = q.corners[i], n = q.corners[(i + 1) % 4], mid{0.5 * (p.x + n.x), 0.5 * (p.y + n.y)};
    const double away = std::hypot(mid.x - c.x, mid.y - c.y);
    const auto along = [&](double px) { return Point{mid.x + px * (mid.x - c.x) / away, mid.y + px * (mid.y - c.y) / away}; };
    EXPECT_GT(green(along(2)), 0.5f);
    EXPECT_LT(green(along(-2)), 0.45f);
  }
}

}  // namespace
}  // namespace huewright::render
