#include "colour/delta_e.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <lcms2.h>
#include <random>

namespace huewright {
namespace {

struct PairRow {
  Lab<D50> one, two;
  double de00;
};

// Sharma, Wu, Dalal: The CIEDE2000 Color-Difference Formula, Color Research and Application 30 (2005), table 1, all 34 pairs.
constexpr PairRow kSharma[] = {
    {{50.0, 2.6772, -79.7751}, {50.0, 0.0, -82.7485}, 2.0425},
    {{50.0, 3.1571, -77.2803}, {50.0, 0.0, -82.7485}, 2.8615},
    {{50.0, 2.8361, -74.02}, {50.0, 0.0, -82.7485}, 3.4412},
    {{50.0, -1.3802, -84.2814}, {50.0, 0.0, -82.7485}, 1.0},
    {{50.0, -1.1848, -84.8006}, {50.0, 0.0, -82.7485}, 1.0},
    {{50.0, -0.9009, -85.5211}, {50.0, 0.0, -82.7485}, 1.0},
    {{50.0, 0.0, 0.0}, {50.0, -1.0, 2.0}, 2.3669},
    {{50.0, -1.0, 2.0}, {50.0, 0.0, 0.0}, 2.3669},
    {{50.0, 2.49, -0.001}, {50.0, -2.49, 0.0009}, 7.1792},
    {{50.0, 2.49, -0.001}, {50.0, -2.49, 0.001}, 7.1792},
    {{50.0, 2.49, -0.001}, {50.0, -2.49, 0.0011}, 7.2195},
    {{50.0, 2.49, -0.001}, {50.0, -2.49, 0.0012}, 7.2195},
    {{50.0, -0.001, 2.49}, {50.0, 0.0009, -2.49}, 4.8045},
    {{50.0, -0.001, 2.49}, {50.0, 0.001, -2.49}, 4.8045},
    {{50.0, -0.001, 2.49}, {50.0, 0.0011, -2.49}, 4.7461},
    {{50.0, 2.5, 0.0}, {50.0, 0.0, -2.5}, 4.3065},
    {{50.0, 2.5, 0.0}, {73.0, 25.0, -18.0}, 27.1492},
    {{50.0, 2.5, 0.0}, {61.0, -5.0, 29.0}, 22.8977},
    {{50.0, 2.5, 0.0}, {56.0, -27.0, -3.0}, 31.903},
    {{50.0, 2.5, 0.0}, {58.0, 24.0, 15.0}, 19.4535},
    {{50.0, 2.5, 0.0}, {50.0, 3.1736, 0.5854}, 1.0},
    {{50.0, 2.5, 0.0}, {50.0, 3.2972, 0.0}, 1.0},
    {{50.0, 2.5, 0.0}, {50.0, 1.8634, 0.5757}, 1.0},
    {{50.0, 2.5, 0.0}, {50.0, 3.2592, 0.335}, 1.0},
    {{60.2574, -34.0099, 36.2677}, {60.4626, -34.1751, 39.4387}, 1.2644},
    {{63.0109, -31.0961, -5.8663}, {62.8187, -29.7946, -4.0864}, 1.263},
    {{61.2901, 3.7196, -5.3901}, {61.4292, 2.248, -4.962}, 1.8731},
    {{35.0831, -44.1164, 3.7933}, {35.0232, -40.0716, 1.5901}, 1.8645},
    {{22.7233, 20.0904, -46.694}, {23.0331, 14.973, -42.5619}, 2.0373},
    {{36.4612, 47.858, 18.3852}, {36.2715, 50.5065, 21.2231}, 1.4146},
    {{90.8027, -2.0831, 1.441}, {91.1528, -1.6435, 0.0447}, 1.4441},
    {{90.9257, -0.5406, -0.9208}, {88.6381, -0.8985, -0.7239}, 1.5381},
    {{6.7747, -0.2908, -2.4247}, {5.8714, -0.0985, -2.2286}, 0.6377},
    {{2.0776, 0.0795, -1.135}, {0.9033, -0.0636, -0.5514}, 0.9082},
};

TEST(DeltaE2000, SharmaPairsBothWaysRound) {
  ASSERT_EQ(std::size(kSharma), 34u);
  int pair = 0;
  for (const PairRow& r : kSharma) {
    ++pair;
    // The table prints four decimals; the issue asks for 1e-4.
    EXPECT_NEAR(deltaE2000(r.one, r.two), r.de00, 1e-4) << "pair " << pair;
    EXPECT_NEAR(deltaE2000(r.two, r.one), r.de00, 1e-4) << "pair " << pair << " turned round";
  }
}

TEST(DeltaE2000, TheVectorsLengthIsTheDifference) {
  for (const PairRow& r : kSharma) EXPECT_NEAR(length(deltaVector(r.one, r.two).u), r.de00, 1e-4);
}

std::mt19937_64 delta_rng(2005);

Lab<D50> randomLab() {
  std::uniform_real_distribution<double> l(0, 100), ab(-90, 90);
  return {l(delta_rng), ab(delta_rng), ab(delta_rng)};
}

// lcms2's cmsCIE2000DeltaE is an independent reading of the same paper.
TEST(DeltaE2000, AgreesWithLcmsOn10000RandomPairs) {
  double worst = 0;
  for (int i = 0; i < 10000; ++i) {
    const Lab<D50> a = randomLab();
    std::normal_distribution<double> step(0, 6);
    const Lab<D50> b = i % 2 ? randomLab() : Lab<D50>{a.L + step(delta_rng), a.a + step(delta_rng), a.b + step(delta_rng)};
    const cmsCIELab la{a.L, a.a, a.b}, lb{b.L, b.a, b.b};
    worst = std::max(worst, std::abs(deltaE2000(a, b) - cmsCIE2000DeltaE(&la, &lb, 1, 1, 1)));
  }
  EXPECT_LT(worst, 1e-4);
}

TEST(DeltaVector, DerivativesAgreeWithCentralDifferences) {
  std::normal_distribution<double> step(0, 4);
  for (int i = 0; i < 300; ++i) {
    const Lab<D50> card = randomLab();
    if (std::hypot(card.a, card.b) < 15) continue;  // the hue turns too fast near neutral for a finite difference
    const Lab<D50> panel{card.L + step(delta_rng), card.a + step(delta_rng), card.b + step(delta_rng)};
    const DeltaVector at = deltaVector(panel, card);
    constexpr double h = 1e-5;
    for (std::size_t k = 0; k < 3; ++k) {
      Vec3 p = toVec(panel), q = toVec(panel), c = toVec(card), d = toVec(card);
      p[k] += h, q[k] -= h, c[k] += h, d[k] -= h;
      const auto lab = [](const Vec3& v) { return Lab<D50>{v[0], v[1], v[2]}; };
      const Vec3 by_panel = (0.5 / h) * (deltaVector(lab(p), card).u - deltaVector(lab(q), card).u);
      const Vec3 by_card = (0.5 / h) * (deltaVector(panel, lab(c)).u - deltaVector(panel, lab(d)).u);
      for (std::size_t r = 0; r < 3; ++r) {
        EXPECT_NEAR(at.by_panel(r, k), by_panel[r], 1e-6);
        EXPECT_NEAR(at.by_card(r, k), by_card[r], 1e-6);
      }
    }
  }
}

TEST(DeltaVector, IsSmoothThroughZero) {
  const Lab<D50> c{45, -30, -12};
  const DeltaVector at = deltaVector(c, c);
  EXPECT_EQ(length(at.u), 0);
  const Vec3 step{0.01, 0.02, -0.01};
  const Vec3 there = deltaVector({c.L + step[0], c.a + step[1], c.b + step[2]}, c).u;
  EXPECT_LT(length(there - at.by_panel * step), 1e-5);
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t k = 0; k < 3; ++k) EXPECT_NEAR(at.by_panel(r, k), -at.by_card(r, k), 1e-12);
}

TEST(DeltaVector, ANeutralColourGivesFiniteDerivatives) {
  const DeltaVector at = deltaVector({50, 0, 0}, {52, 0, 0});
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t k = 0; k < 3; ++k) EXPECT_TRUE(std::isfinite(at.by_panel(r, k)) && std::isfinite(at.by_card(r, k)));
}

TEST(DeltaVector, NearNeutralItsDerivativesFollowTheDifference) {
  // Between a neutral and a colour close by the difference itself is smooth; so must be the vector that stands for it.
  const Lab<D50> card{51, 2, -1.5};
  for (const double chroma : {0.0, 1e-15, 1e-6, 0.01, 0.5, 1.5}) {
    const Lab<D50> panel{49.5, chroma, 0.4 * chroma};
    const DeltaVector at = deltaVector(panel, card);
    EXPECT_NEAR(length(at.u), deltaE2000(panel, card), 1e-12) << chroma;
    for (const Vec3& step : {Vec3{0.2, 0, 0}, Vec3{0, 0.2, 0}, Vec3{0, 0, 0.2}, Vec3{0, -0.2, 0}, Vec3{0, 0, -0.2}}) {
      const Lab<D50> there{panel.L + step[0], panel.a + step[1], panel.b + step[2]};
      EXPECT_NEAR(length(at.u + at.by_panel * step), deltaE2000(there, card), 0.03) << chroma;  // a tenth of the step's 0.3
      EXPECT_LT(length(at.by_panel * step), 0.35) << chroma;  // the stretch of a* is at most 1.5
    }
  }
}

TEST(DeltaVector, TwoNeutralsHaveDerivativesInEveryDirection) {
  const DeltaVector at = deltaVector({50, 0, 0}, {50, 0, 0});
  EXPECT_NEAR(at.by_panel(1, 1), 1.5, 1e-9);  // Sharma, Wu, Dalal (2005), equations 4 and 5 at C = 0
  EXPECT_NEAR(at.by_panel(2, 2), 1.0, 1e-9);
  EXPECT_NEAR(at.by_card(1, 1), -1.5, 1e-9);
}

TEST(LabDifference, ComponentsAddUp) {
  for (int i = 0; i < 1000; ++i) {
    const Lab<D50> a = randomLab(), b = randomLab();
    const LabDifference d = labDifference(a, b);
    EXPECT_NEAR(d.da * d.da + d.db * d.db, d.dC * d.dC + d.dH * d.dH, 1e-7);  // CIE 15:2018, 8.2.2.2
  }
  EXPECT_GT(labDifference({50, 0, 20}, {50, 20, 0}).dH, 0);  // from 0° to 90°: counter-clockwise
}

}  // namespace
}  // namespace huewright
