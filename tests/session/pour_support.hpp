// An invented pour for the tests: a bicycle frame and fork in teal.
#pragma once

#include "session/pour.hpp"

namespace huewright::pour_test {

/// 0.45 m², 4 coats by gun: 105 mL of 1 : 3 and five carrier. With densities it is weighed.
inline PourRequest bicyclePour(bool weighed = true) {
  PourRequest request;
  request.recipe = {{{"teal, strong", 1}, {"aqua, weak", 3}}, 5};
  if (weighed) {
    request.recipe.tints[0].density = 1.05;
    request.recipe.tints[1].density = 1.01;
    request.recipe.carrier_density = 0.88;
  }
  request.need.areas = {{"frame", 0.35}, {"fork", 0.1}};
  request.need.coats = 4;
  return request;
}

/// That much of the same mix, by the lines of a cup.
inline PourRequest plainPour(double ml) {
  PourRequest request = bicyclePour(false);
  request.need = {};
  request.volume_ml = ml;
  return request;
}

}  // namespace huewright::pour_test
