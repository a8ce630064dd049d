#include "camera/mask.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "camera/code_steps.hpp"
#include "camera/robust.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

constexpr double kGlareFloor = 0.035;   // relative; below it a departure is texture, whatever the noise
constexpr double kShadowFloor = 0.06;
constexpr double kCodeSteps = 1.0;          // of the steps in which a JPEG keeps a smooth surface
constexpr double kStepsShow = 0.15;       // of such a step: how far a surface that shows steps scatters; set on rendered greys and real charts
constexpr double kSeed = 4.0, kGrow = 1.5;  // in robust standard deviations: where a mask starts, and how far it spreads

/// Spreads a mask from its seeds into neighbours that still depart (for glare's soft edge), then by one block more.
void grow(const Grid& g, const std::vector<double>& departure, Kept kind, std::vector<Kept>& kept) {
  std::vector<std::size_t> open;
  for (const std::size_t i : g.full)
    if (kept[i] == kind) open.push_back(i);
  const auto neighbours = [&](std::size_t i, auto&& visit) {
    const int column = static_cast<int>(i) % g.columns, row = static_cast<int>(i) / g.columns;
    for (int r = std::max(0, row - 1); r <= std::min(g.rows - 1, row + 1); ++r)
      for (int c = std::max(0, column - 1); c <= std::min(g.columns - 1, column + 1); ++c) visit(static_cast<std::size_t>(r * g.columns + c));
  };
  while (!open.empty()) {
    const std::size_t i = open.back();
    open.pop_back();
    neighbours(i, [&](std::size_t j) {
      if (kept[j] == Kept::Yes && departure[j] > kGrow) {
        kept[j] = kind;
        open.push_back(j);
      }
    });
  }
  std::vector<std::size_t> rim;
  for (const std::size_t i : g.full)
    if (kept[i] == kind) neighbours(i, [&](std::size_t j) { if (kept[j] == Kept::Yes) rim.push_back(j); });
  for (const std::size_t i : rim) kept[i] = kind;
}

/// The full blocks that may show the surface. Burnt-out blocks are a lamp's image, and not the surface over-exposed, when the rest of
/// the region is much darker in its darkest channel: glare adds the same light to all three.
std::vector<std::size_t> notBurnt(const Grid& g, const std::vector<Vec3>& rgb) {
  std::vector<std::size_t> burnt, left;
  for (const std::size_t i : g.full) (4 * g.blocks[i].top > g.blocks[i].count ? burnt : left).push_back(i);
  if (burnt.empty() || 10 * left.size() < g.full.size()) return g.full;
  const auto darkest = [&](const std::vector<std::size_t>& of) {
    std::vector<double> values;
    for (const std::size_t i : of) values.push_back(std::ranges::min(rgb[i]));
    return medianOf(std::move(values));
  };
  constexpr double kMuchBrighter = 1.4;
  return darkest(burnt) > kMuchBrighter * std::max(0.0, darkest(left)) ? left : g.full;
}

}  // namespace

std::vector<Kept> mask(const Grid& g) {
  std::vector<Vec3> rgb(g.blocks.size());
  for (const std::size_t i : g.full) rgb[i] = kXyzD50ToSrgb * g.blocks[i].mean();
  const auto smooth = smoothed(g, rgb);
  const auto shown = notBurnt(g, rgb);
  double brightest = 0;  // median of the strongest channel: the scale below which a channel is noise
  for (std::size_t k = 0; k < 3; ++k) {
    std::vector<double> values;
    for (const std::size_t i : shown) values.push_back(rgb[i][k]);
    brightest = std::max(brightest, medianOf(values));
  }

  // A smooth surface stands in a JPEG in steps, which a plane runs through: a block lies up to one from it, and at times its neighbours with it.
  Vec3 steps{};
  if (g.rounding) {
    Vec3 middle;
    for (std::size_t k = 0; k < 3; ++k) {
      std::vector<double> values;
      for (const std::size_t i : shown) values.push_back(rgb[i][k]);
      middle[k] = medianOf(std::move(values));
    }
    steps = lightOfSteps(middle, *g.rounding);
  }

  std::vector<Kept> kept(g.blocks.size(), Kept::Outside);
  std::vector<double> bright(g.blocks.size(), 0), dark(g.blocks.size(), 0);  // largest departure, in robust standard deviations
  for (const std::size_t i : g.full) kept[i] = Kept::Yes;
  for (std::size_t k = 0; k < 3; ++k) {
    std::vector<Spot> samples;
    for (const std::size_t i : shown)
      samples.push_back({g.blocks[i].x / g.blocks[i].count, g.blocks[i].y / g.blocks[i].count, smooth[i][k], 1});
    const auto [plane, spread] = robustPlane(samples);
    const double level = std::max(std::abs(plane.at), 0.08 * brightest);
    const bool stepped = spread < kStepsShow * steps[k];  // noise of a good part of a step averages the steps out
    const double sd_glare = std::max({spread, kGlareFloor * level / kSeed, stepped ? kCodeSteps * steps[k] / kSeed : 0.0});
    const double sd_shadow = std::max(spread, kShadowFloor * level / kSeed);
    for (const std::size_t i : g.full) {
      const double usual = plane(g.blocks[i].x / g.blocks[i].count, g.blocks[i].y / g.blocks[i].count), d = smooth[i][k] - usual;
      // Outside sRGB a channel is negative, and a shadow too brings it up towards zero: only what lies above zero is glare.
      bright[i] = std::max(bright[i], (d + std::min(0.0, usual)) / sd_glare);
      dark[i] = std::max(dark[i], -d / sd_shadow);
    }
  }
  for (const std::size_t i : g.full) {
    if (bright[i] > kSeed && bright[i] >= dark[i]) kept[i] = Kept::Glare;
    else if (dark[i] > kSeed) kept[i] = Kept::Shadow;
  }
  grow(g, bright, Kept::Glare, kept);
  grow(g, dark, Kept::Shadow, kept);
  return kept;
}

}  // namespace huewright
