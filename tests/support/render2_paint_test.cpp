// The second renderer's films, surfaces and cards: their physics, and their distances. Nothing is ever tuned on them.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "colour/delta_e.hpp"
#include "render/spectra.hpp"
#include "render2/film.hpp"
#include "render2/scene.hpp"

namespace huewright::render2 {
namespace {

TEST(Render2Spectra, aPerfectDiffuserIsWhite) {
  const Xyz<D50> white = xyzD50(even(1));
  EXPECT_NEAR(white.Y, 1, 1e-12);
  EXPECT_NEAR(white.X, kWhite<D50>[0], 1e-12);
  EXPECT_NEAR(white.Z, kWhite<D50>[2], 1e-12);
}

TEST(Render2Spectra, theTruthMeansTheSameAsTheFirstRenderers) {
  for (const Paint& paint : {Paint{}, Paint{Ground::Gold, 1, Tints::PlumRose, 0, 0.7, 3, 0.5, 0.1}}) {
    const Spectrum body = reflectance(paint);
    EXPECT_LT(deltaE2000(labD50(body), render::labUnderD50(body.v)), 1e-9);
  }
}

TEST(Render2Film, aThickLayerIsTheClosedForm) {
  // Kubelka and Munk (1931): R∞ = 1 + K/S − √((K/S)² + 2 K/S).
  for (const double k : {0.01, 0.2, 1.0, 5.0})
    for (const double s : {0.1, 0.5, 2.0}) {
      const double q = k / s, wanted = 1 + q - std::sqrt(q * q + 2 * q);
      for (const double under : {0.0, 0.9}) EXPECT_NEAR(over(layerOf(400 * k, 400 * s), under), wanted, 1e-9) << k << " " << s;
      EXPECT_NEAR(thickLimit(k, s), wanted, 1e-12);
    }
}

TEST(Render2Film, layersKeepTheLightThatNothingAbsorbs) {
  for (const double s : {0.0, 0.1, 3.0}) {
    const Layer l = layerOf(0, s);
    EXPECT_NEAR(l.r + l.t, 1, 1e-9);
    const Layer nearly = layerOf(1e-9, s);
    EXPECT_NEAR(nearly.r, l.r, 1e-4);
  }
  for (const double k : {0.05, 1.0, 9.0})
    for (const double s : {0.0, 0.1, 3.0}) {
      const Layer l = layerOf(k, s);
      EXPECT_GE(l.r, 0);
      EXPECT_LT(l.r + l.t, 1);
    }
  EXPECT_NEAR(layerOf(0.7, 0).t, std::exp(-0.7), 1e-12);   // Beer and Lambert
}

TEST(Render2Film, twoHalvesAreOneLayer) {
  for (const double under : {0.05, 0.5, 0.95})
    EXPECT_NEAR(over(layerOf(0.2, 0.3), over(layerOf(0.2, 0.3), under)), over(layerOf(0.4, 0.6), under), 1e-12);
  for (const Ground ground : kGrounds) {
    const Paint p{ground, 1, Tints::NavySky, 0, 0.4, 3, 0.6, 0.05};
    Paint twice = p, half = p;
    twice.load = 1.2;
    twice.coats = 1.5;
    EXPECT_LT(deltaE2000(labOf(twice), labOf(p)), 1e-9);
    half.coats = 6;
    half.load = 0.3;
    EXPECT_LT(deltaE2000(labOf(half), labOf(p)), 1e-9);
  }
}

TEST(Render2Film, noFilmIsTheGround) {
  for (const Ground ground : kGrounds) {
    const Paint none{ground, 1, Tints::PlumRose, 0, 0.4, 0, 0.6, 0.1};
    const GroundBody& g = body(ground);
    const Spectrum seen = reflectance(none);
    for (std::size_t i = 0; i < kBands; ++i) {
      const double clear = std::exp(-0.04 * hump(390, 30, 45)[i]);   // the clear's yellow, crossed twice
      EXPECT_NEAR(seen[i], throughSurface(clear * (g.diffuse[i] + g.flakes[i]), standardGeometry()), 1e-12) << nameOf(ground);
    }
    EXPECT_LT(deltaE2000(labOf(none), labOf({ground, 1, Tints::NavySky, 5, 0.9, 0, 0.3, 0.2})), 1e-9);
  }
}

TEST(Render2Film, reflectsNoMoreThanArrives) {
  for (const Ground ground : kGrounds) {
    const GroundBody& g = body(ground);
    const double everywhere = flakeGainDiffuse(g);
    for (std::size_t i = 0; i < kBands; ++i) EXPECT_LT(g.diffuse[i] + everywhere * g.flakes[i], 1) << nameOf(ground);
    for (const Tints tints : kTints)
      for (const double coats : {0.0, 0.5, 4.0, 30.0})
        for (const double r : reflectance(Paint{ground, 1, tints, 0, 0.5, coats, 0.6, 0.05}).v) {
          EXPECT_GE(r, 0);
          EXPECT_LE(r, 0.96);
        }
  }
}

TEST(Render2Film, theSurfaceFollowsFresnel) {
  EXPECT_NEAR(fresnel(1), 0.04, 1e-12);              // ((n − 1) / (n + 1))², n = 1.5
  EXPECT_NEAR(fresnel(std::sqrt(0.5)), 0.0502, 5e-5);   // Fresnel's equations at 45°, by hand
  EXPECT_NEAR(fresnel(0), 1, 1e-12);
  const double mirror = 1 / std::hypot(1.0, 1.5);    // cosine of Brewster's angle: half of it is all s-polarised light
  EXPECT_NEAR(fresnel(mirror), 0.5 * std::pow((1.5 * 1.5 - 1) / (1.5 * 1.5 + 1), 2), 1e-12);
}

TEST(Render2Film, flakesAreBrightestTowardsTheMirrorImageAndFollowTheCosinesPower) {
  const GroundBody& g = body(Ground::CoarseSilver);
  EXPECT_NEAR(flakeGain(g, standardGeometry()), 1, 1e-12);
  double before = 1e9;
  for (const double slant : {0.0, 0.3, 0.6, 0.9}) {
    const double gain = flakeGain(g, geometryOf({std::sin(slant), 0, std::cos(slant)}, {0, 0, 1}));
    EXPECT_LT(gain, before);
    before = gain;
  }
  Geometry flat = standardGeometry(), tipped = flat;
  tipped.cos_half *= 0.99;
  EXPECT_NEAR(flakeGain(g, tipped) / flakeGain(g, flat), std::pow(0.99, g.exponent), 1e-9);
}

TEST(Render2Cards, lookLikeThePaintAndAreOtherStuff) {
  int made = 0;
  for (const Tints tints : kTints) {
    const Paint paint{Ground::White, 1, tints, 0, 0.4, 3, 0.5, 0.08};
    Random random(5);
    for (const CardKind kind : {CardKind::Printed, CardKind::Other}) {
      const auto card = makeCard(kind, paint, random);
      if (!card) continue;   // out of these inks' or pigments' reach
      ++made;
      EXPECT_LT(deltaE2000(labD50(card->reflectance), labOf(paint)), 0.03);
      double furthest = 0;
      const Spectrum own = reflectance(paint);
      for (std::size_t i = 0; i < kBands; ++i) {
        EXPECT_GE(card->reflectance[i], 0);
        EXPECT_LE(card->reflectance[i], 1);
        furthest = std::max(furthest, std::abs(card->reflectance[i] - own[i]));
      }
      EXPECT_GT(furthest, 0.01);
    }
  }
  EXPECT_GE(made, 6);
}

TEST(Render2Cards, thePanelIsAtTheDistanceThatIsAsked) {
  for (const CardKind kind : {CardKind::Same, CardKind::Similar, CardKind::Printed, CardKind::Other})
    for (const double de00 : {0.0, 0.5, 2.0, 4.0})
      for (std::uint64_t seed = 1; seed <= 4; ++seed) {
        const Spec s = randomSpec(seed, {de00, kind, false, false});
        EXPECT_NEAR(deltaE2000(labOf(s.panel), labD50(s.card.reflectance)), de00, 0.005) << static_cast<int>(kind) << " " << seed;
        EXPECT_EQ(s.card.kind, kind);
        if (kind == CardKind::Same) { EXPECT_EQ(s.card.paint->ground, s.panel.ground); }
      }
}

TEST(Render2Cards, whatAPaintCannotBeIsSaid) {
  const Paint paint{Ground::White, 1, Tints::GreenLime, 0, 0.4, 3, 0.5, 0.05};
  const Lab<D50> red{45, 60, 40};
  Random random(1);
  EXPECT_FALSE(matched(paint, red).has_value());
  EXPECT_FALSE(movedAway(paint, labOf(paint), 90, true, true).has_value());
  EXPECT_FALSE(printed({30, 90, -90}, random).has_value());
  EXPECT_FALSE(otherPigments({30, 90, -90}, random).has_value());
}

TEST(Render2Cards, aMatchIsAMatchOrNothing) {
  const Paint paint{Ground::Pearl, 1, Tints::NavySky, 0, 0.4, 3, 0.5, 0.05};
  const Lab<D50> own = labOf(paint);
  int found = 0, none = 0;
  for (int away = -12; away <= 12; ++away)
    for (const Lab<D50>& wanted : {Lab<D50>{own.L + away, own.a, own.b}, Lab<D50>{own.L, own.a + away, own.b}, Lab<D50>{own.L, own.a, own.b + away}})
      if (const auto match = matched(paint, wanted)) {
        ++found;
        EXPECT_LT(deltaE2000(labOf(*match), wanted), 0.004) << away;
      } else {
        ++none;
      }
  EXPECT_GT(found, 10);
  EXPECT_GT(none, 0);
}

TEST(Render2Cards, theBestShareIsTheBest) {
  const Paint wanted{Ground::White, 1, Tints::BrickOchre, 0, 0.35, 3, 0.5, 0.05};
  Paint p = wanted;
  p.share = 0.6;
  EXPECT_NEAR(bestShare(p, labOf(wanted)), 0.35, 1e-4);
}

}  // namespace
}  // namespace huewright::render2
