#include "mix/film_spread.hpp"

#include <array>
#include <cmath>
#include <gtest/gtest.h>

#include "render/film.hpp"

namespace huewright {
namespace {

struct FilmPair {
  double a, b, covariance;
};
// Worked by hand: a half is shared, four coats have the variance 1, so one coat alone has 0.5 + 2.
constexpr FilmPair kFilmPairs[] = {{4, 4, 1}, {1, 1, 2.5}, {2, 2, 1.5}, {1, 4, 1}, {4, 1, 1}, {2, 3, 0.5 + 2 / 3.0}, {8, 2, 0.75}, {0.5, 1, 2.5}};

TEST(FilmSpread, CovarianceOfTwoStrips) {
  for (const FilmPair& pair : kFilmPairs) EXPECT_NEAR(filmCovariance(pair.a, pair.b), pair.covariance, 1e-12) << pair.a << " " << pair.b;
  EXPECT_NEAR(filmSd(0.05, 4), 0.05, 1e-12);
  EXPECT_NEAR(filmSd(0.05, 1), 0.05 * std::sqrt(2.5), 1e-12);
}

// Against panels sprayed coat by coat. The standard error of a covariance of 4000 is 2 %.
TEST(FilmSpread, AgreesWithPanelsSprayedCoatByCoat) {
  render::Random random(7);
  constexpr std::array kCoats{1.0, 2.0, 3.0, 5.0};
  constexpr int kPanels = 4000;
  constexpr double kSd = 0.03;
  double sum[4][4] = {};
  for (int i = 0; i < kPanels; ++i) {
    const std::vector<double> films = render::sprayedFilms(kCoats, kSd, 0.5, random);
    for (std::size_t a = 0; a < 4; ++a)
      for (std::size_t b = 0; b < 4; ++b) sum[a][b] += std::log(films[a]) * std::log(films[b]) / (kPanels * kSd * kSd);
  }
  for (std::size_t a = 0; a < 4; ++a)
    for (std::size_t b = 0; b < 4; ++b) EXPECT_NEAR(sum[a][b] / filmCovariance(kCoats[a], kCoats[b]), 1, 0.1) << a << b;
}

TEST(FilmSpread, StripsOfOnePieceShareFilmsOfEqualCoats) {
  // Two pieces whose strips come mixed, a plain panel between them; piece 7 has two readings of its strip of 2 coats.
  constexpr std::array kCoats{3.0, 2.0, 2.0, 1.0, 2.0, 4.0};
  constexpr std::array kPieces{7, 7, kNoPiece, 3, 7, 3};
  const FilmTerms terms = filmTerms(kCoats, kPieces);
  EXPECT_EQ(terms.films, 5U);
  ASSERT_EQ(terms.pieces.size(), 3U);
  EXPECT_EQ(terms.pieces[0].coats, (std::vector{2.0, 3.0}));
  EXPECT_EQ(terms.of, (std::vector<std::size_t>{1, 0, 2, 3, 0, 4}));
}

// Whitened films have the variance 1 and nothing in common: W C Wᵀ is the unit matrix.
TEST(FilmSpread, WhiteningTakesOutWhatStripsShare) {
  constexpr std::array kCoats{1.0, 2.0, 3.0, 6.0};
  constexpr std::array kPieces{0, 0, 0, 0};
  const FilmPiece piece = filmTerms(kCoats, kPieces).pieces.front();
  double left[4][4];                   // W C, by columns
  for (std::size_t c = 0; c < 4; ++c) {
    std::vector<double> column;
    for (const double n : kCoats) column.push_back(filmCovariance(n, kCoats[c]));
    const std::vector<double> whitened = piece.whitened(column);
    for (std::size_t r = 0; r < 4; ++r) left[r][c] = whitened[r];
  }
  for (std::size_t r = 0; r < 4; ++r) {
    const std::vector<double> row = piece.whitened(left[r]);
    for (std::size_t c = 0; c < 4; ++c) EXPECT_NEAR(row[c], r == c ? 1 : 0, 1e-12) << r << c;
  }
}

TEST(FilmSpread, OtherStripsTellOfAStripsFilm) {
  const FilmGuess alone = filmAmong({}, {}, 4);
  EXPECT_EQ(alone.ln_film, 0);
  EXPECT_NEAR(alone.variance, 1, 1e-12);
  // One strip of 4 coats, by hand: 0.5 + 2 / 5 = 0.9 of its film is expected of 5 coats, and 0.9 − 0.9² is left of the variance.
  constexpr std::array kFour{4.0}, kFilm{0.1};
  const FilmGuess five = filmAmong(kFour, kFilm, 5);
  EXPECT_NEAR(five.ln_film, 0.09, 1e-12);
  EXPECT_NEAR(five.variance, 0.09, 1e-12);
  const FilmGuess same = filmAmong(kFour, kFilm, 4);
  EXPECT_NEAR(same.ln_film, 0.1, 1e-12);
  EXPECT_NEAR(same.variance, 0, 1e-12);
}

}  // namespace
}  // namespace huewright
