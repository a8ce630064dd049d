// Panels whose truth is known: painted by the renderer, which shares no formula with the tint model, or made up from known tints.
#pragma once

#include <cmath>
#include <span>
#include <vector>

#include "colour/delta_e.hpp"
#include "mix/fit.hpp"
#include "render/film.hpp"
#include "render/paint.hpp"
#include "render/random.hpp"

namespace huewright::mixing {

/// A reading of a colour with normal noise, alike in all directions of CIEDE2000; sigma is the root sum of the three axes.
inline Lab<D50> readWithNoise(const Lab<D50>& truth, double sigma, render::Random& random) {
  const Mat3 to_lab = inverse(deltaVector(truth, truth).by_panel);
  const double axis = sigma / std::sqrt(3.0);
  const Vec3 noise = to_lab * Vec3{axis * random.normal(), axis * random.normal(), axis * random.normal()};
  return {truth.L + noise[0], truth.a + noise[1], truth.b + noise[2]};
}

/// A panel sprayed by the renderer's paint and read. In: film: sprayed over meant; sigma 0 reads exactly.
inline PanelReading rendered(render::Paint paint, double film, double sigma, render::Random& random) {
  PanelReading panel;
  panel.shares = {paint.share, 1 - paint.share};
  panel.tint_part = tintPart(paint.carrier_per_tint);
  panel.coats = paint.coats;
  render::Paint bare = paint;
  bare.coats = 0;
  panel.ground = sharpened(render::labOf(bare));
  paint.film = film;
  panel.lab = readWithNoise(render::labOf(paint), sigma, random);
  return panel;
}

/// Strong and weak tints that the tests make up.
inline const std::vector<Tint>& madeTints() {
  static const std::vector<Tint> tints{{{4.6, 3.1, 2.7}, {0.06, 0.07, 0.05}}, {{1.2, 0.8, 0.75}, {0.09, 0.1, 0.08}}};
  return tints;
}

/// A panel of those tints over silver, as the tint model itself has it.
inline PanelReading made(double share, double coats, double film, double sigma, render::Random& random, double carrier = 6) {
  PanelReading panel;
  panel.shares = {share, 1 - share};
  panel.tint_part = tintPart(carrier);
  panel.coats = coats;
  panel.ground = sharpened(Lab<D50>{79, 0, 2});
  panel.lab = readWithNoise(filmLab(madeTints(), {panel.shares, panel.tint_part, coats * film}, panel.ground), sigma, random);
  return panel;
}

/// Strips of one stepped panel of those tints, sprayed coat by coat.
inline std::vector<PanelReading> madeStrips(double share, const std::vector<double>& coats, double film_sd, double sigma, int piece, render::Random& random) {
  std::vector<PanelReading> strips;
  const std::vector<double> films = render::sprayedFilms(coats, film_sd, 0.5, random);
  for (std::size_t i = 0; i < coats.size(); ++i) {
    strips.push_back(made(share, coats[i], films[i], sigma, random));
    strips.back().piece = piece;
  }
  return strips;
}

inline std::vector<TintPrior> loosePriors() { return {strongPrior(), weakPrior()}; }

}  // namespace huewright::mixing
