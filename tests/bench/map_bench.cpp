#include <cmath>
#include <lcms2.h>
#include <memory>
#include <random>
#include <vector>

#include "bench/pair.hpp"
#include "bench/ratios.hpp"
#include "colour/delta_map.hpp"

namespace huewright::bench {

void addMap() {
  constexpr std::size_t kPixels = 700 * 700;
  std::mt19937 rng(24);
  std::normal_distribution<double> step(0, 3);
  const auto xyz = std::make_shared<std::vector<float>>();
  const auto labs = std::make_shared<std::vector<cmsCIELab>>();
  for (std::size_t i = 0; i < kPixels; ++i) {
    const Lab<D50> lab{45 + step(rng), -28 + step(rng), -10 + step(rng)};
    for (const double v : toVec(toXyz(lab))) xyz->push_back(static_cast<float>(v));
    labs->push_back({lab.L, lab.a, lab.b});
  }
  const auto out = std::make_shared<std::vector<float>>(kPixels);
  add({"delta-map-vs-lcms2", "0.1", "deltaMap of 700 x 700 pixels, from XYZ, against cmsCIE2000DeltaE of as many colours that are CIELAB already", 20,
       [=] {
         deltaMap(*xyz, Mat3::identity(), {44, -27, -11}, *out);
         benchmark::DoNotOptimize(out->data());
         return out->back() > 0;
       },
       [=] {
         const cmsCIELab card{44, -27, -11};
         double total = 0;
         for (const cmsCIELab& lab : *labs) total += cmsCIE2000DeltaE(&lab, &card, 1, 1, 1);
         benchmark::DoNotOptimize(total);
         return total > 0;
       }});
}

}  // namespace huewright::bench
