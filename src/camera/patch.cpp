#include "camera/patch.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "camera/block_grid.hpp"
#include "camera/mask.hpp"
#include "camera/robust.hpp"
#include "camera/shade.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

constexpr int kGroupsAcross = 6;  // of the longer side, for the covariance of the mean and the slopes

/// Groups of kept blocks, so coarse that neighbours are all but independent. Groups kept by less than a third are left out.
std::vector<Block> groupsOf(const Grid& g, const std::vector<Kept>& kept) {
  const int group = std::max(1, (std::max(g.columns, g.rows) + kGroupsAcross - 1) / kGroupsAcross);
  const int across = (g.columns + group - 1) / group, down = (g.rows + group - 1) / group;
  std::vector<Block> groups(static_cast<std::size_t>(across * down));
  for (const std::size_t i : g.full) {
    if (kept[i] != Kept::Yes) continue;
    const int column = static_cast<int>(i) % g.columns, row = static_cast<int>(i) / g.columns;
    Block& to = groups[static_cast<std::size_t>((row / group) * across + column / group)];
    const Block& b = g.blocks[i];
    to.x += b.x;
    to.y += b.y;
    to.xyz = to.xyz + b.xyz;
    to.count += b.count;
  }
  std::erase_if(groups, [&](const Block& b) { return 3 * b.count < g.side * g.side * group * group; });
  return groups;
}

constexpr double kLeastLit = 0.08;      // of the region: a smaller lit part is not read alone

constexpr std::size_t kFewGroups = 6;  // below it no scatter about a plane can be learned

/// What the groups' scatter about a plane tells, channel by channel: texture coarser than a block counts, a smooth fall-off does not.
void setScatter(const std::vector<Block>& groups, Patch& patch) {
  const Vec3 mean = toVec(patch.mean);
  if (groups.size() < kFewGroups) {  // one per cent of each value, a guess on the safe side
    patch.of_mean = outer(0.01 * mean, 0.01 * mean);
    return;
  }
  const auto n = static_cast<double>(groups.size());
  const auto planeOf = [&](auto&& value) {
    std::vector<Spot> samples;
    for (const Block& b : groups) samples.push_back({b.x / b.count, b.y / b.count, value(b.mean()), static_cast<double>(b.count)});
    return std::pair{fitPlane(samples), samples};
  };
  std::vector<Vec3> left(groups.size());
  for (std::size_t k = 0; k < 3; ++k) {
    const auto [plane, samples] = planeOf([k](const Vec3& xyz) { return xyz[k]; });
    for (std::size_t i = 0; i < groups.size(); ++i) left[i][k] = samples[i].value - plane(samples[i].x, samples[i].y);
  }
  Mat3 sum{};
  for (const Vec3& v : left) sum = sum + outer(v, v);
  patch.of_mean = (1.0 / ((n - 3.0) * n)) * sum;
  if (mean[1] > 0) patch.texture = std::sqrt(sum(1, 1) / (n - 3.0)) / mean[1];

  const Vec3 rgb = kXyzD50ToSrgb * mean;
  const auto brightest = static_cast<std::size_t>(std::ranges::max_element(rgb) - rgb.begin());
  for (std::size_t k = 0; k < 3; ++k) {
    if (rgb[k] < 0.05 * rgb[brightest] || rgb[k] <= 0) continue;  // so dark a channel shows noise, not light
    const Plane plane = planeOf([&](const Vec3& xyz) { return dot(kXyzD50ToSrgb.row[k], xyz) / rgb[k]; }).first;
    patch.channel_trend[k] = {plane.along_x, plane.along_y};
    patch.channel_trend_sd[k] = {plane.sd_x, plane.sd_y};
  }
  patch.trend = patch.channel_trend[brightest];
  patch.trend_sd = patch.channel_trend_sd[brightest];
}

/// How much the luminance differs between neighbouring blocks of one row or column beyond a straight course, scaled to one pixel as if pixels were independent.
double grainOf(const Grid& g, const std::vector<Kept>& kept) {
  std::vector<char> good(g.blocks.size());
  for (const std::size_t i : g.full) good[i] = kept[i] == Kept::Yes;
  double sum = 0, n = 0;
  const auto add = [&](std::size_t before, std::size_t at, std::size_t after) {
    if (!good[before] || !good[at] || !good[after]) return;
    const double a = g.blocks[before].mean()[1], b = g.blocks[at].mean()[1], c = g.blocks[after].mean()[1];
    if (b <= 0) return;
    const double bend = (a - 2 * b + c) / b;
    sum += bend * bend / 6;  // the weights' squares: 1, 4, 1
    ++n;
  };
  const auto columns = static_cast<std::size_t>(g.columns);
  for (std::size_t i = 0; i < g.blocks.size(); ++i) {
    if (const std::size_t column = i % columns; column > 0 && column + 1 < columns) add(i - 1, i, i + 1);
    if (i >= columns && i + columns < g.blocks.size()) add(i - columns, i, i + columns);
  }
  return n > 0 ? g.side * std::sqrt(sum / n) : 0;
}

/// True when one outer strip of the region departs as a whole from the middle: the outline runs over an edge.
bool runsOverEdge(const Grid& g, const std::vector<Kept>& kept) {
  const int strip_x = std::max(1, g.columns / 10), strip_y = std::max(1, g.rows / 10);
  std::array<int, 5> all{}, off{};  // left, right, top, bottom, middle
  for (const std::size_t i : g.full) {
    const int column = static_cast<int>(i) % g.columns, row = static_cast<int>(i) / g.columns;
    std::array<bool, 5> in{column < strip_x, column >= g.columns - strip_x, row < strip_y, row >= g.rows - strip_y, false};
    in[4] = !in[0] && !in[1] && !in[2] && !in[3];
    for (std::size_t s = 0; s < in.size(); ++s)
      if (in[s]) {
        ++all[s];
        off[s] += kept[i] != Kept::Yes;
      }
  }
  if (8 * off[4] > all[4]) return false;  // glare and dirt in the middle reach the rim as well
  for (std::size_t s = 0; s < 4; ++s)
    if (all[s] >= 4 && 10 * off[s] >= 9 * all[s]) return true;
  return false;
}

}  // namespace

Patch sample(const Raster& raster, const Quad& quad, Shades shades) { return sampleBlocks(raster, quad, shades).patch; }

SampledBlocks sampleBlocks(const Raster& raster, const Quad& quad, Shades shades) {
  SampledBlocks sampled{{}, makeGrid(raster, quad), {}};
  Patch& patch = sampled.patch;
  const Grid& g = sampled.grid;
  for (const Block& b : g.blocks) patch.pixels += static_cast<std::size_t>(b.count);
  if (g.full.empty()) return sampled;

  std::vector<Kept>& kept = sampled.kept;
  kept = mask(g);
  patch.over_edge = runsOverEdge(g, kept);
  // A neutral strip along one side may as well be what lies beside the region; only a coloured surface can tell that it is itself in the shade.
  if (const Shade shade = shades == Shades::Sought ? findShade(g) : Shade{}; shade.step > 0 && (shade.coloured || !patch.over_edge)) {
    patch.shade_step = shade.step;
    patch.shade_share = shade.share;
    patch.over_edge = false;
    const auto lit = std::ranges::count_if(g.full, [&](std::size_t i) { return !shade.dark[i]; });
    patch.shade_lit = static_cast<double>(lit) >= kLeastLit * static_cast<double>(g.full.size());
    if (patch.shade_lit) kept = maskLit(g, shade);
  }
  Block sum;
  double glare = 0, shadow = 0, full = 0;
  for (const std::size_t i : g.full) {
    const Block& b = g.blocks[i];
    full += b.count;
    if (kept[i] == Kept::Glare) glare += b.count;
    if (kept[i] == Kept::Shadow) shadow += b.count;
    if (kept[i] != Kept::Yes) continue;
    sum.x += b.x;
    sum.y += b.y;
    sum.xyz = sum.xyz + b.xyz;
    sum.count += b.count;
    sum.top += b.top;
    sum.bottom += b.bottom;
  }
  patch.glare = glare / full;
  patch.shadow = shadow / full;
  patch.masked = patch.glare + patch.shadow;
  if (sum.count == 0) return sampled;

  const Vec3 mean = sum.mean();
  patch.mean = {mean[0], mean[1], mean[2]};
  patch.centre = {sum.x / sum.count, sum.y / sum.count};
  patch.clipped_top = static_cast<double>(sum.top) / sum.count;
  patch.clipped_bottom = static_cast<double>(sum.bottom) / sum.count;
  setScatter(groupsOf(g, kept), patch);
  patch.grain = grainOf(g, kept);
  return sampled;
}

}  // namespace huewright
