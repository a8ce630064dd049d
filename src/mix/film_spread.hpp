// How the films of panels vary, and how the strips of one stepped panel go together in that.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace huewright {

/// Half of the variance of a panel's film, at kFilmCoats coats, is taken to be the whole panel's (distance, speed, how full the cup and the trigger), half that of its coats, each on its own.
/// Nobody has measured it here: an assumption, no source.
inline constexpr double kFilmShared = 0.5;
inline constexpr double kFilmCoats = 4;

/// Covariance of ln film (sprayed over meant) of two strips of one piece, in units of the variance at kFilmCoats coats. Strip n carries the first n coats of the piece, so two strips share the
/// thinner one's coats: shared + (1 − shared) · kFilmCoats / max(a, b), since means of the first m and n of independent coats have the covariance of one coat / max(m, n).
/// In: coats > 0; less than one coat varies like one.
double filmCovariance(double coats_a, double coats_b);

/// Relative standard deviation of the film of a panel of so many coats; film_sd is that at kFilmCoats.
double filmSd(double film_sd, double coats);

/// Panels of one piece: of each of its films the coats, from thin to deep, no number twice: strips of equal coats share their film.
struct FilmPiece {
  std::size_t first = 0;             ///< its first film among all
  std::vector<double> coats;
  std::vector<double> whiten;        ///< row by row, lower triangle: times ln film gives independent numbers of variance film_sd²

  /// The whitened numbers of its films' ln film; `ln_film`: of all films.
  std::vector<double> whitened(std::span<const double> ln_film) const;
};

/// The films that a fit has to find.
struct FilmTerms {
  std::vector<std::size_t> of;       ///< of each panel: its film
  std::vector<FilmPiece> pieces;     ///< a plain panel is a piece of its own
  std::size_t films = 0;
};

/// In: coats of each panel, and its piece: panels with the same number >= 0 are strips of one piece, kNoPiece is a panel of its own; equally many.
FilmTerms filmTerms(std::span<const double> coats, std::span<const int> pieces);
inline constexpr int kNoPiece = -1;

/// What some strips' films tell of another strip of the same piece: expected ln film, and what is left of its variance, in units of film_sd². Without strips: 0 and all of it.
struct FilmGuess {
  double ln_film = 0, variance = 0;
};
FilmGuess filmAmong(std::span<const double> strip_coats, std::span<const double> strip_ln_film, double coats);

}  // namespace huewright
