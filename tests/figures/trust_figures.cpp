// How often re-encoding is seen in simulated photos, and how often it is seen where there was none. Printed, never asserted.
//   trust_figures PHOTOS SEED
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>

#include "photo/code_watch.hpp"
#include "photo/jpeg_history.hpp"
#include "render/random.hpp"
#include "render/scene.hpp"
#include "render/style.hpp"
#include "support/fixtures.hpp"

namespace {

namespace hw = huewright;
namespace hr = huewright::render;
namespace hf = huewright::fixtures;

struct Rate {
  int seen = 0, of = 0;
  void add(bool yes) {
    seen += yes;
    ++of;
  }
};

hf::Picture shoot(unsigned seed) {
  hr::SceneSpec scene;
  scene.size = seed % 3 == 0 ? hw::Size{1500, 1000} : hw::Size{960, 640};
  scene.shop = hr::randomShop(seed);
  scene.shop.bench = static_cast<hr::Bench>(seed % 4);
  const hr::Rendered picture = hr::render(scene, seed);
  const auto codes = hr::encode8(picture.style, picture.size, picture.linear);
  return {picture.size, {codes.begin(), codes.end()}};
}

hw::CodeTraces watched(const hf::Picture& picture) {
  hw::CodeWatch watch(picture.size);
  std::vector<std::uint8_t> row(3 * static_cast<std::size_t>(picture.size.width));
  for (int y = 0; y < picture.size.height; ++y) {
    std::transform(picture.at(0, y), picture.at(0, y) + row.size(), row.begin(), [](std::uint16_t c) { return static_cast<std::uint8_t>(c); });
    watch.take({y, 0, picture.size.width, hw::Sample::Code8, 3, row.data()});
  }
  return watch.result();
}

hf::Picture mapped(hf::Picture picture, double (*curve)(double, double), double how) {
  for (auto& code : picture.rgb) code = static_cast<std::uint16_t>(std::lround(std::clamp(curve(code, how), 0.0, 255.0)));
  return picture;
}

hw::DoubleQuantisation lookBack(const hf::Bytes& jpeg) { return hw::doubleQuantisation(hw::coefficientCounts(jpeg, 1'000'000)); }

/// Lower end of the steps of quality from the first compression to the second, in groups.
int groupOf(int step) {
  for (const int end : {-20, -5, 1, 4, 8, 16})
    if (step < end) return end;
  return 100;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) return std::fprintf(stderr, "trust_figures PHOTOS SEED\n"), 2;
  const int photos = std::atoi(argv[1]);
  const auto seed = static_cast<unsigned>(std::atoi(argv[2]));
  Rate alarms, grid_alarms, gap_alarms, stretched, bent;
  std::map<int, Rate> twice, grid;
  double worst = -1;
  int most = 0;
  for (int i = 0; i < photos; ++i) {
    hr::Random random(seed + static_cast<unsigned>(i));
    const hf::Picture shot = shoot(seed + static_cast<unsigned>(i));
    const hw::CodeTraces clean = watched(shot);
    grid_alarms.add(clean.block_grid);
    gap_alarms.add(clean.gaps);
    stretched.add(watched(mapped(shot, [](double c, double f) { return (c - 16) * f; }, random.uniform(1.08, 1.5))).gaps);
    bent.add(watched(mapped(shot, [](double c, double p) { return 255 * std::pow(c / 255, p); }, random.uniform(0.7, 1.4))).gaps);
    for (int j = 0; j < 3; ++j) {
      hf::JpegOptions options;
      options.quality = 50 + static_cast<int>(random.below(50));
      if (random.chance(0.5)) options.h = options.v = 1;
      const hf::Bytes once = hf::jpeg(shot, options);
      const hw::DoubleQuantisation first = lookBack(once);
      alarms.add(first.twice);
      worst = std::max(worst, first.per_sample);
      most = std::max(most, first.in_favour);
      const hf::Picture decoded = hf::decodeJpeg(once);
      grid[options.quality / 10 * 10].add(watched(decoded).block_grid);
      hf::JpegOptions then = options;
      then.quality = 60 + static_cast<int>(random.below(40));
      twice[groupOf(then.quality - options.quality)].add(lookBack(hf::jpeg(decoded, then)).twice);
    }
  }
  std::printf("JPEG compressed once, taken for twice: %d of %d (largest mean gain %.4f nats, at most %d of 9 coefficients)\n", alarms.seen, alarms.of,
              worst, most);
  for (const auto& [end, rate] : twice) std::printf("compressed twice, quality changed by less than %+4d: seen %d of %d\n", end, rate.seen, rate.of);
  std::printf("never a JPEG, grid seen: %d of %d\n", grid_alarms.seen, grid_alarms.of);
  for (const auto& [quality, rate] : grid) std::printf("was a JPEG of quality %d to %d, grid seen: %d of %d\n", quality, quality + 9, rate.seen, rate.of);
  std::printf("untouched levels, gaps seen: %d of %d; stretched by 1.08 to 1.5: %d of %d; bent by a power of 0.7 to 1.4: %d of %d\n", gap_alarms.seen,
              gap_alarms.of, stretched.seen, stretched.of, bent.seen, bent.of);
}
