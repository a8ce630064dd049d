// A made-up photo in memory: panel, card, grey, black chip and white paper all round, under any light.
#pragma once

#include <functional>

#include "colour/adapt.hpp"
#include "judge/reading.hpp"
#include "render/random.hpp"

namespace huewright {

inline const Lab<D50> kBenchPanel{41, -28, -14}, kBenchCard{45, -30, -12};
inline const Size kBenchSize{600, 400};
inline const Regions kBenchRegions{{toQuad({60, 60, 200, 200})}, toQuad({330, 60, 200, 200}), {toQuad({240, 300, 80, 60})}, toQuad({440, 310, 40, 40})};

struct BenchShot {
  std::function<double(int, int)> light = [](int, int) { return 1.0; };
  Vec3 veil = 0.002 * kWhite<D50>;  // XYZ on panel, card and chip: the usual one
  double paper = 0.84, chip = 0.004, grey = 0.19, noise = 0.004;
};

inline Photo shootBench(const BenchShot& shot) {
  render::Random random(5);
  std::vector<float> xyz;
  const Vec3 panel = toVec(toXyz(kBenchPanel)), card = toVec(toXyz(kBenchCard)), white = kWhite<D50>;
  for (int y = 0; y < kBenchSize.height; ++y)
    for (int x = 0; x < kBenchSize.width; ++x) {
      const Point at{x + 0.5, y + 0.5};
      Vec3 seen = shot.paper * white;
      bool glossy = true;
      if (contains(kBenchRegions.panels[0], at)) seen = panel;
      else if (contains(*kBenchRegions.card, at)) seen = card;
      else if (contains(*kBenchRegions.black, at)) seen = shot.chip * white;
      else {
        glossy = false;
        if (contains(kBenchRegions.greys[0], at)) seen = shot.grey * white;
      }
      seen = shot.light(x, y) * seen;
      if (glossy) seen = seen + shot.veil;
      for (const double v : seen) xyz.push_back(static_cast<float>(v * (1 + shot.noise * random.normal())));
    }
  return Photo::fromMemory(kBenchSize, std::move(xyz), {});
}

/// The regions, and paper spots all over that keep clear of them; black only when asked for.
inline Scene benchScene(bool black = false) {
  Regions regions = kBenchRegions;
  if (!black) regions.black.reset();
  Scene scene = arrange(regions, kBenchSize).value();
  for (int y = 8; y + 12 < kBenchSize.height; y += 24)
    for (int x = 8; x + 12 < kBenchSize.width; x += 24) {
      const Quad spot = toQuad({x, y, 12, 12}), round = toQuad({x - 6, y - 6, 24, 24});
      const bool free = !overlap(round, kBenchRegions.panels[0]) && !overlap(round, *kBenchRegions.card) && !overlap(round, kBenchRegions.greys[0]) &&
                        !overlap(round, *kBenchRegions.black);
      if (free) scene.paper.push_back(spot);
    }
  return scene;
}

}  // namespace huewright
