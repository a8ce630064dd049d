// Predictors that know the made tints well, for tests of what is said.
#pragma once

#include "mix/aim.hpp"
#include "mix/mix_support.hpp"

namespace huewright::mixing {

inline const Lab<D50> kMadeGround{79, 0, 2};

/// 25 exact panels of the made tints over silver.
inline const Predictor& knowingPredictor() {
  static const Predictor predictor = [] {
    render::Random random(2);
    std::vector<PanelReading> panels;
    for (const double share : {0.0, 0.2, 0.4, 0.7, 1.0})
      for (const double coats : {1.0, 2.0, 3.0, 4.0, 6.0}) panels.push_back(made(share, coats, 1, 0, random));
    auto fit = fitTints(panels, loosePriors(), {.sigma = 0.05, .film_sd = 0.01});
    return Predictor(std::move(*fit), std::move(panels));
  }();
  return predictor;
}

inline Lab<D50> madeColour(double share, double coats, const Lab<D50>& ground = kMadeGround) {
  const std::vector<double> shares{share, 1 - share};
  return filmLab(madeTints(), {shares, 1 / 7.0, coats}, sharpened(ground));
}

inline Aim knowingAim(const Lab<D50>& target) { return Aim(knowingPredictor(), target, kMadeGround, 1 / 7.0); }

}  // namespace huewright::mixing
