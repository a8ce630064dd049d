// What a colour chart in the photo is worth, on simulated scenes whose truth is known. Printed, never asserted.
//   chart_figures finder|colour TRIALS SEED [--seen|--known-lamps] [trials.csv]
//   finder: is the chart found and read; is none seen where there is none
//   colour: the panel's own colour, and its difference from the card, with the chart and without
// --seen: the cameras and lights that constants may be tuned on, to look into something; else those that are for stating figures only.
// --known-lamps: cameras for stating figures only, under the lamps that constants may be tuned on (A, FL2, FL11 and warm LEDs are among them).
#include <cstdio>
#include <cstdlib>
#include <cstring>

#include "figures/chart_figures.hpp"
#include "render/scene.hpp"

int main(int argc, char** argv) {
  using namespace huewright;
  bool seen = false, known_lamps = false;
  std::vector<const char*> words;
  for (int i = 1; i < argc; ++i)
    if (std::strcmp(argv[i], "--seen") == 0) seen = true;
    else if (std::strcmp(argv[i], "--known-lamps") == 0) known_lamps = true;
    else words.push_back(argv[i]);
  if (words.size() < 3 || words.size() > 4) {
    std::fputs("chart_figures finder|colour TRIALS SEED [--seen|--known-lamps] [trials.csv]\n", stderr);
    return 2;
  }
  const std::string what = words[0];
  const int trials = std::atoi(words[1]);
  const std::uint64_t seed = std::strtoull(words[2], nullptr, 10);
  render::ShopOptions shops = seen ? render::ShopOptions{} : render::unseenShops();
  if (known_lamps) shops.lights = render::ShopOptions{}.lights;
  if (what == "finder") figures::chartFinder(trials, seed, shops);
  else if (what == "colour") figures::chartColour(trials, seed, shops, words.size() > 3 ? words[3] : nullptr);
  else return 2;
  return 0;
}
