#include "mix/fit.hpp"

#include <algorithm>
#include <gtest/gtest.h>

#include "mix/mix_support.hpp"

namespace huewright {
namespace {

using namespace mixing;

TEST(FitTints, WithoutPanelsGivesThePriorsBack) {
  const auto fit = fitTints({}, loosePriors(), {});
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->tints[0].k[1], 3, 1e-6);
  EXPECT_NEAR(fit->tints[1].k[2], 1, 1e-6);
  EXPECT_NEAR(fit->covariance[0], 1.44, 1e-6);
  EXPECT_NEAR(fit->covariance[1], 0, 1e-9);
  EXPECT_EQ(fit->film_sd, kFilmSd);
}

// Nine exact panels pin the tints down: a colour that is none of them comes out right. kMisfit is still allowed for, so the priors pull a little.
TEST(FitTints, FindsTheTintsThatMadeThePanels) {
  render::Random random(5);
  std::vector<PanelReading> panels;
  for (const double share : {0.15, 0.4, 0.8})
    for (const double coats : {1.0, 3.0, 6.0}) panels.push_back(made(share, coats, 1, 0, random));
  const auto fit = fitTints(panels, loosePriors(), {.sigma = 0.05});
  ASSERT_TRUE(fit);
  EXPECT_TRUE(fit->converged);
  for (std::size_t t = 0; t < 2; ++t)
    for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(fit->tints[t].k[c] / madeTints()[t].k[c], 1, 0.05) << t << c;
  const PanelReading other = made(0.6, 4, 1, 0, random);
  EXPECT_LT(deltaE2000(filmLab(fit->tints, {other.shares, other.tint_part, other.coats}, other.ground), other.lab), 0.1);
  EXPECT_LT(std::ranges::max(fit->misses), 0.1);
}

// The covariance against the scatter of many fits: ln k of each tint's first channel, shifted by truth, within 2 standard deviations in 95 %. The priors pull as well, so
// the count may lie a little higher.
TEST(FitTints, CovarianceCoversTheTruth) {
  render::Random random(17);
  int inside = 0, all = 0;
  for (int trial = 0; trial < 60; ++trial) {
    std::vector<PanelReading> panels;
    for (const double share : {0.25, 0.5})
      for (const double coats : {3.0, 5.0}) panels.push_back(made(share, coats, 1 + 0.05 * random.normal(), 0.4, random));
    const auto fit = fitTints(panels, loosePriors(), {.sigma = 0.4});
    ASSERT_TRUE(fit);
    for (std::size_t t = 0; t < 2; ++t)
      for (std::size_t c = 0; c < 3; ++c) {
        const std::size_t i = kTintUnknowns * t + c;
        const double sd = std::sqrt(fit->covariance[i * 12 + i]);
        inside += std::abs(std::log(fit->tints[t].k[c] / madeTints()[t].k[c])) < 1.96 * sd;
        ++all;
      }
  }
  EXPECT_GT(inside, 0.92 * all);
  EXPECT_LT(inside, all);
}

// What a painter's hand does is learned: the root mean square of the true spread of these panels is known.
TEST(FitTints, LearnsThePaintersFilmSpread) {
  for (const double spread : {0.02, 0.12}) {
    render::Random random(23);
    std::vector<PanelReading> panels;
    double sum = 0;
    for (int i = 0; i < 30; ++i) {
      const double film = spread * random.normal();
      sum += film * film;
      panels.push_back(made(0.2 + 0.02 * (i % 6), 2 + i % 4, std::exp(film), 0.1, random));
    }
    const auto fit = fitTints(panels, loosePriors(), {.sigma = 0.1});
    ASSERT_TRUE(fit);
    const double believed = std::sqrt((10 * kFilmSd * kFilmSd + sum) / 40);  // the belief counts as ten panels
    EXPECT_NEAR(fit->film_sd / believed, 1, 0.2) << spread;
  }
}

TEST(FitTints, FewPanelsKeepTheBelievedSpread) {
  render::Random random(29);
  std::vector<PanelReading> panels;
  for (int i = 0; i < 5; ++i) panels.push_back(made(0.3, 1 + i, 1.2, 0.1, random));
  const auto fit = fitTints(panels, loosePriors(), {});
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->film_sd, kFilmSd);
}

// Strips of one piece share their coats. Taken for panels of their own they make a fit believe its amounts too well; with their piece told, truth lies within 2 standard deviations in 95 %.
TEST(FitTints, StripsOfOnePieceAreNotIndependentPanels) {
  render::Random random(19);
  double inside[2] = {}, all = 0;
  for (int trial = 0; trial < 40; ++trial) {
    std::vector<PanelReading> panels;
    for (const int piece : {0, 1})
      for (const PanelReading& strip : madeStrips(piece == 0 ? 0.2 : 0.7, {1, 2, 3, 4, 5, 6}, 0.1, 0.1, piece, random)) panels.push_back(strip);
    for (const bool told : {true, false}) {
      for (PanelReading& panel : panels) panel.piece = told ? panel.piece : kNoPiece;
      const auto fit = fitTints(panels, loosePriors(), {.sigma = 0.1, .film_sd = 0.1});
      ASSERT_TRUE(fit);
      EXPECT_EQ(fit->pieces, told ? 2U : 12U);
      for (std::size_t t = 0; t < 2; ++t)
        for (std::size_t c = 0; c < 3; ++c) {
          const std::size_t i = kTintUnknowns * t + c;
          inside[told ? 0 : 1] += std::abs(std::log(fit->tints[t].k[c] / madeTints()[t].k[c])) < 1.96 * std::sqrt(fit->covariance[i * 12 + i]);
          all += told;
        }
    }
  }
  EXPECT_GT(inside[0], 0.9 * all);
  EXPECT_LT(inside[1], 0.85 * all);
}

// Two stepped panels are two pieces, whatever their strips; six of them are enough, and each counts once.
TEST(FitTints, FilmSpreadCountsPieces) {
  render::Random random(41);
  std::vector<PanelReading> panels;
  double sum = 0;
  for (int piece = 0; piece < 12; ++piece) {
    if (piece == 2) {
      const auto few = fitTints(panels, loosePriors(), {.sigma = 0.1});
      ASSERT_TRUE(few);
      EXPECT_EQ(few->film_sd, kFilmSd);
    }
    const std::vector<double> coats{1, 2, 3, 4};
    std::vector<double> films = render::sprayedFilms(coats, 0.12, 0.5, random);
    for (std::size_t i = 0; i < 4; ++i) {
      panels.push_back(made(0.2 + 0.05 * (piece % 6), coats[i], films[i], 0.1, random));
      panels.back().piece = piece;
      films[i] = std::log(films[i]);
    }
    const std::vector<int> one(4, 0);
    for (const double v : filmTerms(coats, one).pieces.front().whitened(films)) sum += v * v / 4;
  }
  const auto fit = fitTints(panels, loosePriors(), {.sigma = 0.1});
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->pieces, 12U);
  EXPECT_NEAR(fit->film_sd / std::sqrt((10 * kFilmSd * kFilmSd + sum) / 22), 1, 0.2);
}

// A known tint is a prior: with it, one panel of the other tint alone is enough.
TEST(FitTints, KnownTintsCount) {
  render::Random random(31);
  TintPrior known{madeTints()[0], std::vector<double>(36)};
  for (std::size_t i = 0; i < 6; ++i) known.covariance[7 * i] = 1e-4;
  const std::vector<TintPrior> priors{known, weakPrior()};
  const std::vector<PanelReading> panels{made(0, 3, 1, 0, random)};
  const auto fit = fitTints(panels, priors, {});
  ASSERT_TRUE(fit);
  const PanelReading mixed = made(0.4, 3, 1, 0, random);
  EXPECT_LT(deltaE2000(filmLab(fit->tints, {mixed.shares, mixed.tint_part, mixed.coats}, mixed.ground), mixed.lab), 0.5);
}

// Colours darker than any saturation would have them: beta runs into its bound.
TEST(FitTints, SaturationIsNeverNegative) {
  render::Random random(37);
  std::vector<PanelReading> panels;
  for (const double coats : {1.0, 2.0, 3.0, 5.0}) {
    panels.push_back(made(0.5, coats, 1 + 0.3 * coats, 0, random));
    panels.back().coats = coats;
  }
  const auto fit = fitTints(panels, loosePriors(), {.sigma = 0.05});
  ASSERT_TRUE(fit);
  double least = 1;
  for (const Tint& tint : fit->tints)
    for (const double b : tint.beta) least = std::min(least, b);
  EXPECT_EQ(least, 0);
}

}  // namespace
}  // namespace huewright
