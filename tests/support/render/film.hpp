// How evenly a painter sprays: the films of a panel, coat by coat.
#pragma once

#include <cmath>
#include <span>
#include <vector>

#include "render/random.hpp"

namespace huewright::render {

/// What was sprayed over what was meant, of strips of one panel that stopped after so many coats. One factor is the whole panel's, and each coat has one of its own; a strip of n coats
/// carries the mean of the first n. In: whole coats >= 1; film_sd: relative standard deviation at four coats; shared: the panel's part of that variance, 0..1.
inline std::vector<double> sprayedFilms(std::span<const double> coats, double film_sd, double shared, Random& random) {
  const double panel = std::exp(film_sd * std::sqrt(shared) * random.normal()), coat_sd = film_sd * std::sqrt(4 * (1 - shared));
  double most = 0;
  for (const double n : coats) most = std::max(most, n);
  std::vector<double> sum{0};          // of the first so many coats
  while (static_cast<double>(sum.size()) <= most) sum.push_back(sum.back() + std::exp(coat_sd * random.normal()));
  std::vector<double> films;
  for (const double n : coats) films.push_back(panel * sum[static_cast<std::size_t>(n)] / n);
  return films;
}

}  // namespace huewright::render
