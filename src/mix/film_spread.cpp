#include "mix/film_spread.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

namespace huewright {
namespace {

double wholeCoat(double coats) { return std::max(coats, 1.0); }

Eigen::MatrixXd filmMatrix(std::span<const double> coats) {
  const auto n = static_cast<Eigen::Index>(coats.size());
  Eigen::MatrixXd matrix(n, n);
  for (Eigen::Index a = 0; a < n; ++a)
    for (Eigen::Index b = 0; b < n; ++b) matrix(a, b) = filmCovariance(coats[static_cast<std::size_t>(a)], coats[static_cast<std::size_t>(b)]);
  return matrix;
}

void whitenFilms(FilmPiece& piece) {
  const auto n = static_cast<Eigen::Index>(piece.coats.size());
  const Eigen::MatrixXd whiten = filmMatrix(piece.coats).llt().matrixL().solve(Eigen::MatrixXd::Identity(n, n));
  piece.whiten.clear();
  for (Eigen::Index r = 0; r < n; ++r)
    for (Eigen::Index c = 0; c < n; ++c) piece.whiten.push_back(whiten(r, c));
}

}  // namespace

double filmCovariance(double coats_a, double coats_b) { return kFilmShared + (1 - kFilmShared) * kFilmCoats / wholeCoat(std::max(coats_a, coats_b)); }

double filmSd(double film_sd, double coats) { return film_sd * std::sqrt(filmCovariance(coats, coats)); }

std::vector<double> FilmPiece::whitened(std::span<const double> ln_film) const {
  const std::size_t n = coats.size();
  std::vector<double> out(n);
  for (std::size_t r = 0; r < n; ++r)
    for (std::size_t c = 0; c <= r; ++c) out[r] += whiten[r * n + c] * ln_film[first + c];
  return out;
}

FilmTerms filmTerms(std::span<const double> coats, std::span<const int> pieces) {
  FilmTerms terms;
  terms.of.resize(coats.size());
  for (std::size_t i = 0; i < coats.size(); ++i) {
    const auto sameAs = [&](std::size_t j) { return j == i || (pieces[i] != kNoPiece && pieces[j] == pieces[i]); };
    std::size_t head = 0;
    while (!sameAs(head)) ++head;
    if (head < i) continue;          // done with the piece's first strip
    FilmPiece piece;
    piece.first = terms.films;
    for (std::size_t j = i; j < coats.size(); ++j)
      if (sameAs(j)) piece.coats.push_back(wholeCoat(coats[j]));
    std::ranges::sort(piece.coats);
    const auto repeated = std::ranges::unique(piece.coats);
    piece.coats.erase(repeated.begin(), repeated.end());
    for (std::size_t j = i; j < coats.size(); ++j)
      if (sameAs(j)) terms.of[j] = piece.first + static_cast<std::size_t>(std::ranges::find(piece.coats, wholeCoat(coats[j])) - piece.coats.begin());
    terms.films += piece.coats.size();
    whitenFilms(piece);
    terms.pieces.push_back(std::move(piece));
  }
  return terms;
}

FilmGuess filmAmong(std::span<const double> strip_coats, std::span<const double> strip_ln_film, double coats) {
  const std::vector<int> one_piece(strip_coats.size(), 0);
  const FilmTerms terms = filmTerms(strip_coats, one_piece);
  FilmGuess guess{0, filmCovariance(coats, coats)};
  if (terms.pieces.empty()) return guess;
  const FilmPiece& piece = terms.pieces.front();
  std::vector<double> ln_film(terms.films), towards(terms.films);
  for (std::size_t i = 0; i < strip_coats.size(); ++i) ln_film[terms.of[i]] = strip_ln_film[i];
  for (std::size_t f = 0; f < terms.films; ++f) towards[f] = filmCovariance(piece.coats[f], coats);
  const std::vector<double> known = piece.whitened(ln_film), by = piece.whitened(towards);
  for (std::size_t f = 0; f < terms.films; ++f) {
    guess.ln_film += by[f] * known[f];
    guess.variance -= by[f] * by[f];
  }
  guess.variance = std::max(guess.variance, 0.0);
  return guess;
}

}  // namespace huewright
