// Series whose panels the renderer painted.
#pragma once

#include <array>
#include <vector>

#include "mix/mix_support.hpp"
#include "mix/series.hpp"

namespace huewright::mixing {

/// Teal over bright silver, five parts carrier. In: mixes as strong, weak, coats; the card's share and coats; the film's spread from panel to panel.
inline Series paintedSeries(const std::vector<std::array<double, 3>>& mixes, double card_share, double card_coats, double sigma, double film_sd, std::uint64_t seed) {
  render::Random random(seed);
  Series series;
  series.carrier_per_tint = 5;
  series.sigma = sigma;
  render::Paint paint;
  paint.coats = 0;
  series.ground = NamedGround{"bright silver", render::labOf(paint)};
  for (const auto& [strong, weak, coats] : mixes) {
    paint.share = strong / (strong + weak);
    paint.coats = coats;
    paint.film = 1 + film_sd * random.normal();
    SeriesPanel panel;
    panel.strong = strong;
    panel.weak = weak;
    panel.coats = coats;
    panel.lab = readWithNoise(render::labOf(paint), sigma, random);
    series.panels.push_back(panel);
  }
  paint.film = 1;
  paint.share = card_share;
  paint.coats = card_coats;
  series.target = render::labOf(paint);
  return series;
}

/// The same, of stepped panels sprayed coat by coat: of each mix the strong and the weak parts, and strips of 1 to 4 coats. Their pieces are called "A", "B" …
inline Series steppedSeries(const std::vector<std::array<double, 2>>& mixes, double sigma, double film_sd, std::uint64_t seed) {
  Series series = paintedSeries({}, 0.4, 4, sigma, film_sd, seed);
  render::Random random(seed + 1000);
  const std::vector<double> steps{1, 2, 3, 4};
  for (std::size_t m = 0; m < mixes.size(); ++m) {
    const std::vector<double> films = render::sprayedFilms(steps, film_sd, 0.5, random);
    for (std::size_t i = 0; i < steps.size(); ++i) {
      SeriesPanel strip;
      strip.strong = mixes[m][0];
      strip.weak = mixes[m][1];
      strip.coats = steps[i];
      strip.piece = std::string(1, static_cast<char>('A' + m));
      render::Paint paint;
      paint.share = strip.share();
      paint.coats = strip.coats;
      paint.film = films[i];
      strip.lab = readWithNoise(render::labOf(paint), sigma, random);
      series.panels.push_back(strip);
    }
  }
  return series;
}

/// Two shares at two numbers of coats.
inline const std::vector<std::array<double, 3>> kTwoByTwo{{1, 3, 3}, {1, 3, 5}, {1, 1, 3}, {1, 1, 5}};

}  // namespace huewright::mixing
