#include "mix/tint_model.hpp"

#include <array>
#include <cmath>
#include <gtest/gtest.h>

#include "colour/delta_e.hpp"

namespace huewright {
namespace {

constexpr std::array<Tint, 2> kModelTints{Tint{{4.0, 1.5, 0.8}, {0.09, 0.05, 0.2}}, Tint{{1.2, 0.5, 0.3}, {0.03, 0.1, 0.0}}};
const Vec3 kModelGround = sharpened(Lab<D50>{80, -1, 2});

Vec3 linearOf(std::span<const Tint> tints, const Film& film, const Vec3& ground) { return sharpened(filmLab(tints, film, ground)); }

TEST(TintModel, WhiteIsOneInEveryChannel) {
  const Vec3 white = sharpened(Lab<D50>{100, 0, 0});
  for (const double channel : white) EXPECT_NEAR(channel, 1, 1e-12);
}

TEST(TintModel, SharpenedGoesThereAndBack) {
  for (double l = 5; l < 100; l += 19)
    for (double a = -60; a <= 60; a += 40)
      for (double b = -60; b <= 60; b += 40)
        EXPECT_LT(deltaE2000(labOfSharpened(sharpened(Lab<D50>{l, a, b})), {l, a, b}), 1e-9);
}

// Worked example of absorbance arithmetic, as general chemistry textbooks have it (from memory): a solution that lets 25.0 % through in a 1 cm cell has
// A = 0.602 (decadic); 2 cm let 6.25 % through (A = 1.204), half the concentration in 1 cm lets 50.0 % through (A = 0.301), and two solutes of A = 0.602
// and A = 0.301 together let 12.5 % through (A = 0.903). Decadic absorbance is natural absorbance over ln 10.
TEST(TintModel, IsBeerLambertsLawForNoSaturation) {
  const double quarter = 0.602 * std::log(10.0), half = 0.301 * std::log(10.0);
  const std::array<Tint, 2> dyes{Tint{{quarter, quarter, quarter}, {}}, Tint{{half, half, half}, {}}};
  // The floor is no part of the law, so it is taken off on both sides.
  const auto through = [&](std::array<double, 2> shares, double tint_part, double coats) {
    const Vec3 out = linearOf(dyes, {shares, tint_part, coats}, {1, 1, 1});
    return (out[0] - kFilmFloor) / (1 - kFilmFloor);
  };
  EXPECT_NEAR(through({1, 0}, 1, 1), 0.250, 5e-4);
  EXPECT_NEAR(through({1, 0}, 1, 2), 0.0625, 2e-4);
  EXPECT_NEAR(through({1, 0}, 0.5, 1), 0.500, 5e-4);
  EXPECT_NEAR(through({0.5, 0.5}, 1, 2), 0.125, 3e-4);
}

TEST(TintModel, LimitsAreThoseOfTheClosedForm) {
  const std::array<double, 2> shares{0.3, 0.7};
  // No coats: the ground.
  for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(linearOf(kModelTints, {shares, 0.2, 0}, kModelGround)[c], kModelGround[c], 1e-12);
  // Little tint: linear − ground = −(ground − r0) D, D = c · coats · Σ s k.
  const double coats = 1e-6;
  for (std::size_t c = 0; c < 3; ++c) {
    const double depth = 0.2 * coats * (0.3 * kModelTints[0].k[c] + 0.7 * kModelTints[1].k[c]);
    const double change = kModelGround[c] - linearOf(kModelTints, {shares, 0.2, coats}, kModelGround)[c];
    EXPECT_NEAR(change / ((kModelGround[c] - kFilmFloor) * depth), 1, 1e-5);
  }
  // Endless coats of one tint: E = 1/β; without saturation: the floor.
  const std::array<double, 2> strong{1, 0};
  for (std::size_t c = 0; c < 3; ++c) {
    EXPECT_NEAR(linearOf(kModelTints, {strong, 0.2, 1e12}, kModelGround)[c], kFilmFloor + (kModelGround[c] - kFilmFloor) * std::exp(-1 / kModelTints[0].beta[c]), 1e-9);
    const std::array<Tint, 1> clear{Tint{{4, 4, 4}, {}}};
    const std::array<double, 1> all{1};
    EXPECT_NEAR(linearOf(clear, {all, 0.2, 1e3}, kModelGround)[c], kFilmFloor, 1e-9);
  }
}

// The same β for both: D / (1 + β D), by hand for D = 0.2 · 3 · (0.25 · 4 + 0.75 · 2) = 1.5 and β = 0.1: E = 1.5 / 1.15 = 1.304348, exp(−E) = 0.271350.
TEST(TintModel, SaturatesAsTheFormulaSays) {
  const std::array<Tint, 2> tints{Tint{{4, 4, 4}, {0.1, 0.1, 0.1}}, Tint{{2, 2, 2}, {0.1, 0.1, 0.1}}};
  const std::array<double, 2> shares{0.25, 0.75};
  for (const double out : linearOf(tints, {shares, 0.2, 3}, {0.6, 0.6, 0.6})) EXPECT_NEAR(out, 0.005 + 0.595 * 0.271350, 1e-6);
}

// Two tints that are one: how they are shared out does not matter. Three tints: one with no share is not there.
TEST(TintModel, TintsAddUp) {
  const std::array<Tint, 2> twins{kModelTints[0], kModelTints[0]};
  const std::array<double, 2> a{0.2, 0.8}, b{0.9, 0.1};
  EXPECT_LT(deltaE2000(filmLab(twins, {a, 0.15, 3}, kModelGround), filmLab(twins, {b, 0.15, 3}, kModelGround)), 1e-9);
  const std::array<Tint, 3> three{kModelTints[0], Tint{{9, 9, 9}, {0.2, 0.2, 0.2}}, kModelTints[1]};
  const std::array<double, 3> without{0.2, 0, 0.8};
  EXPECT_LT(deltaE2000(filmLab(three, {without, 0.15, 3}, kModelGround), filmLab(kModelTints, {a, 0.15, 3}, kModelGround)), 1e-9);
  // Twice the coats are twice the tint in the cup.
  EXPECT_LT(deltaE2000(filmLab(kModelTints, {a, 0.1, 4}, kModelGround), filmLab(kModelTints, {a, 0.2, 2}, kModelGround)), 1e-9);
}

Vec3 slopeOf(const Lab<D50>& above, const Lab<D50>& below, double step) { return (0.5 / step) * (toVec(above) - toVec(below)); }

void expectVector(const Vec3& got, const Vec3& want, const char* what) {
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(got[i], want[i], 1e-5 * (1 + std::abs(want[i]))) << what << " " << i;
}

TEST(TintModel, DerivativesAreThoseOfDifferences) {
  constexpr double kStep = 1e-5;
  const std::array<double, 2> shares{0.35, 0.65};
  const Film film{shares, 0.15, 3.4};
  const FilmColour at = filmColour(kModelTints, film, kModelGround);
  EXPECT_LT(deltaE2000(at.lab, filmLab(kModelTints, film, kModelGround)), 1e-12);
  for (std::size_t t = 0; t < 2; ++t) {
    const auto withTint = [&](auto&& change, double step) {
      auto tints = kModelTints;
      change(tints[t], step);
      return filmLab(tints, film, kModelGround);
    };
    for (std::size_t c = 0; c < 3; ++c) {
      const auto scaled = [c](Tint& tint, double step) { tint.k[c] *= std::exp(step); };
      expectVector(at.by_ln_k[3 * t + c], slopeOf(withTint(scaled, kStep), withTint(scaled, -kStep), kStep), "ln k");
      const auto bent = [c](Tint& tint, double step) { tint.beta[c] += step; };
      expectVector(at.by_beta[3 * t + c], slopeOf(withTint(bent, kStep), withTint(bent, -kStep), kStep), "beta");
    }
    const auto withShare = [&](double step) {
      auto moved = shares;
      moved[t] += step;
      return filmLab(kModelTints, {moved, 0.15, 3.4}, kModelGround);
    };
    expectVector(at.by_share[t], slopeOf(withShare(kStep), withShare(-kStep), kStep), "share");
  }
  const auto withCoats = [&](double step) { return filmLab(kModelTints, {shares, 0.15, 3.4 * std::exp(step)}, kModelGround); };
  expectVector(at.by_ln_coats, slopeOf(withCoats(kStep), withCoats(-kStep), kStep), "coats");
  for (std::size_t c = 0; c < 3; ++c) {
    const auto withGround = [&](double step) {
      Vec3 ground = kModelGround;
      ground[c] += step;
      return filmLab(kModelTints, film, ground);
    };
    expectVector({at.by_ground(0, c), at.by_ground(1, c), at.by_ground(2, c)}, slopeOf(withGround(kStep), withGround(-kStep), kStep), "ground");
  }
}

}  // namespace
}  // namespace huewright
