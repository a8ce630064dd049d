#include <memory>
#include <random>
#include <vector>

#include "bench/pair.hpp"
#include "bench/ratios.hpp"
#include "mix/advise.hpp"
#include "mix/shelf.hpp"
#include "session/plots.hpp"

namespace huewright::bench {
namespace {

const Lab<D50> kBenchGround{78.9, 0.1, 2.0};
const std::vector<Tint> kBenchTints{{{4.4, 3.1, 2.7}, {0.06, 0.07, 0.06}}, {{2.2, 0.5, 0.4}, {0.05, 0.05, 0.05}}};  // invented

Lab<D50> benchColour(double share, double coats) {
  const std::vector<double> shares{share, 1 - share};
  return filmLab(kBenchTints, {shares, tintPart(5), coats}, sharpened(kBenchGround));
}

/// Ten panels of the model's own colours, read with a noise of 0.3 in all.
Series tenPanels() {
  std::mt19937 rng(10);
  std::normal_distribution<double> noise(0, 0.17);
  Series series;
  series.carrier_per_tint = 5;
  series.ground = NamedGround{"bare", kBenchGround};
  series.target = benchColour(0.4, 4);
  for (int i = 0; i < 10; ++i) {
    SeriesPanel panel;
    panel.strong = 1;
    panel.weak = 1 + i % 4;
    panel.coats = 2 + i / 3;
    const Lab<D50> lab = benchColour(panel.share(), panel.coats);
    panel.lab = {lab.L + noise(rng), lab.a + noise(rng), lab.b + noise(rng)};
    series.panels.push_back(panel);
  }
  return series;
}

TintFile shelfOf(std::size_t count) {
  std::mt19937 rng(40);
  std::uniform_real_distribution<double> k(0.2, 6);
  TintFile shelf;
  for (std::size_t i = 0; i < count; ++i) {
    KnownTint tint{"tint " + std::to_string(i), {{{k(rng), k(rng), k(rng)}, {0.08, 0.08, 0.08}}, std::vector<double>(36)}};
    for (std::size_t a = 0; a < 6; ++a) tint.fitted.covariance[7 * a] = 1e-4;
    shelf.tints.push_back(std::move(tint));
  }
  return shelf;
}

}  // namespace

void addAdvice() {
  const auto series = std::make_shared<const Series>(tenPanels());
  add({"advise-ten-panels-ms", "50", "advise on ten panels of two tints: the fit, the next mix and its alternatives", 20, [=] { return advise(*series)->next.has_value(); }, {}});
  const auto advice = std::make_shared<const Advice>(advise(*series).value());
  add({"plot-ten-panels-ms", "-", "the drawing of that advice as SVG, its fit made again", 20, [=] { return seriesPlotSvg(*seriesPlotOf(*series, {}, *advice)).has_value(); }, {}});
  const auto shelf = std::make_shared<const TintFile>(shelfOf(kMostOnShelf));
  ShelfWish wish{.target = benchColour(0.4, 4), .ground = kBenchGround, .carrier_per_tint = 5, .limits = {}, .most_tints = 3, .keep = 5};
  add({"shelf-of-40-tints-ms", "2000", "the best mixes of one, two or three of 40 tints", 5, [=] { return fromShelf(*shelf, wish)->size() == 5; }, {}});
}

}  // namespace huewright::bench
