#include "camera/chart_match.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <random>

#include "camera/robust.hpp"

namespace huewright {
namespace {

constexpr double kNearNeutral = 5;                        // C*ab below which a patch takes part in the curves
constexpr double kLeastToneSlope = 0.35, kMostSlope = 2.5;  // of a curve, between logarithms; common sense
constexpr std::size_t kLeastPatches = 8;                    // for nine elements of a matrix, with as much again to check them
constexpr double kMostLean = 0.25;                          // natural log of the light, over half of the grid
constexpr std::array kScales{1e9, 40.0, 25.0, 16.0, 11.0, 8.0, 8.0, 8.0};
constexpr int kDraws = 60;                // of five patches: with a third of wrong ones, one draw in nine has none of them
constexpr std::size_t kDrawn = 5;
constexpr double kGoodFit = 10;           // ΔE*ab, of the better five sixths: no need to look further

/// One patch's data in the reference's order.
struct Item {
  Vec3 light{}, target{};
  Lab<D50> lab;
  Mat3 by_xyz;                 // of CIELAB at the target
  double weight = 0, x = 0, y = 0;
};

/// Solves a symmetric, positive system in place; false where it is singular.
template <std::size_t N>
bool solve(std::array<std::array<double, N + 1>, N>& a) {
  for (std::size_t i = 0; i < N; ++i) {
    std::size_t pivot = i;
    for (std::size_t r = i + 1; r < N; ++r)
      if (std::abs(a[r][i]) > std::abs(a[pivot][i])) pivot = r;
    if (!(std::abs(a[pivot][i]) > 1e-13)) return false;
    std::swap(a[i], a[pivot]);
    for (std::size_t r = 0; r < N; ++r) {
      if (r == i) continue;
      const double factor = a[r][i] / a[i][i];
      for (std::size_t c = i; c <= N; ++c) a[r][c] -= factor * a[i][c];
    }
  }
  for (std::size_t i = 0; i < N; ++i) a[i][N] /= a[i][i];
  return true;
}

/// The 3×3 by weighted least squares in CIELAB, linear in its elements.
std::optional<Mat3> fitMatrix(const std::vector<Item>& items, const std::vector<Vec3>& light, const std::vector<double>& weight) {
  std::array<std::array<double, 10>, 9> a{};
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (weight[i] <= 0) continue;
    for (std::size_t k = 0; k < 3; ++k) {  // L*, a*, b*
      std::array<double, 10> row{};
      for (std::size_t r = 0; r < 3; ++r)
        for (std::size_t c = 0; c < 3; ++c) row[3 * r + c] = items[i].by_xyz(k, r) * light[i][c];
      row[9] = dot(items[i].by_xyz.row[k], items[i].target);
      for (std::size_t p = 0; p < 9; ++p)
        for (std::size_t q = 0; q < 10; ++q) a[p][q] += weight[i] * row[p] * row[q];
    }
  }
  double size = 0;
  for (std::size_t p = 0; p < 9; ++p) size += a[p][p];
  for (std::size_t p = 0; p < 9; ++p) a[p][p] += 1e-9 * size;
  if (!(size > 0) || !solve<9>(a)) return std::nullopt;
  Mat3 m;
  for (std::size_t p = 0; p < 9; ++p) m.row[p / 3][p % 3] = a[p][9];
  return m;
}

/// A monotone curve through the neutral patches of one channel.
class ToneCurve {
 public:
  /// Points: what was seen, what should have been, and how much it counts.
  explicit ToneCurve(std::vector<std::array<double, 3>> points) {
    std::erase_if(points, [](const auto& p) { return !(p[0] > 1e-5) || !(p[2] > 0); });
    std::ranges::sort(points, {}, [](const auto& p) { return p[1]; });
    // What is seen must rise with what should be: pool neighbours that do not (isotonic regression; Barlow and others 1972).
    struct Pool {
      double seen, wanted, weight;
    };
    std::vector<Pool> pools;
    for (const auto& p : points) {
      pools.push_back({std::log(p[0]), std::log(p[1]), p[2]});
      while (pools.size() > 1 && pools.back().seen <= pools[pools.size() - 2].seen + 1e-3) {
        const Pool last = pools.back();
        pools.pop_back();
        Pool& to = pools.back();
        const double all = to.weight + last.weight;
        to = {(to.seen * to.weight + last.seen * last.weight) / all, (to.wanted * to.weight + last.wanted * last.weight) / all, all};
      }
    }
    for (const Pool& p : pools) seen_.push_back(p.seen), wanted_.push_back(p.wanted);
    for (std::size_t i = 1; i < seen_.size(); ++i) {
      const double across = seen_[i] - seen_[i - 1];
      wanted_[i] = wanted_[i - 1] + std::clamp(wanted_[i] - wanted_[i - 1], kLeastToneSlope * across, kMostSlope * across);
    }
  }

  bool usable() const { return seen_.size() >= 3; }

  /// Beyond the ends in proportion.
  double operator()(double light) const {
    if (!(light > 0) || std::log(light) <= seen_.front()) return light * std::exp(wanted_.front() - seen_.front());
    const double at = std::log(light);
    if (at >= seen_.back()) return light * std::exp(wanted_.back() - seen_.back());
    const auto above = static_cast<std::size_t>(std::ranges::upper_bound(seen_, at) - seen_.begin());
    const double part = (at - seen_[above - 1]) / (seen_[above] - seen_[above - 1]);
    return std::exp(wanted_[above - 1] + part * (wanted_[above] - wanted_[above - 1]));
  }

 private:
  std::vector<double> seen_, wanted_;
};

/// The light through curves that make the neutral patches right; nothing where there are too few of them.
std::optional<std::vector<Vec3>> throughCurves(const std::vector<Item>& items, const std::vector<Vec3>& light, const std::vector<double>& weight) {
  std::vector<Vec3> out = light;
  for (std::size_t c = 0; c < 3; ++c) {
    std::vector<std::array<double, 3>> points;
    for (std::size_t i = 0; i < items.size(); ++i)
      if (std::hypot(items[i].lab.a, items[i].lab.b) < kNearNeutral) points.push_back({light[i][c], items[i].target[1], weight[i]});
    const ToneCurve curve(std::move(points));
    if (!curve.usable()) return std::nullopt;
    for (std::size_t i = 0; i < items.size(); ++i) out[i][c] = curve(light[i][c]);
  }
  return out;
}

Lab<D50> colourOf(const Mat3& m, const Vec3& light) {
  const Vec3 xyz = m * light;
  return toLab(Xyz<D50>{xyz[0], xyz[1], xyz[2]});
}

double labDistance(const Lab<D50>& a, const Lab<D50>& b) { return length(toVec(a) - toVec(b)); }

/// `start`: weights to begin with, besides the patches' own; empty: all alike, from the widest scale.
ChartMatch fit(const std::vector<Item>& items, bool curves, const std::vector<double>& start = {}) {
  ChartMatch match;
  match.error = std::numeric_limits<double>::infinity();
  match.off.assign(items.size(), match.error);
  std::vector<double> weight;
  for (const Item& item : items) weight.push_back(item.weight), match.seen.push_back(item.lab);
  if (static_cast<std::size_t>(std::ranges::count_if(weight, [](double w) { return w > 0; })) < kLeastPatches) return match;

  std::optional<Mat3> matrix;
  std::vector<Vec3> light(items.size());
  for (std::size_t i = 0; i < start.size(); ++i) weight[i] *= start[i];
  for (const double scale : std::span(kScales).subspan(start.empty() ? 0 : 3)) {
    for (std::size_t i = 0; i < items.size(); ++i)
      light[i] = std::exp(-match.slope[0] * items[i].x - match.slope[1] * items[i].y) * items[i].light;
    if (curves) {
      auto better = throughCurves(items, light, weight);
      if (!better) return match;
      light = std::move(*better);
    }
    matrix = fitMatrix(items, light, weight);
    if (!matrix) return match;
    std::array<std::array<double, 3>, 2> lean{};
    for (std::size_t i = 0; i < items.size(); ++i) {
      const Lab<D50> at = colourOf(*matrix, light[i]);
      match.off[i] = items[i].weight > 0 ? labDistance(at, items[i].lab) : std::numeric_limits<double>::infinity();
      if (items[i].weight > 0) match.seen[i] = at;
      const double q = items[i].weight > 0 ? match.off[i] / scale : 0;
      weight[i] = items[i].weight / ((1 + q * q) * (1 + q * q));
      // How the colour moves with the light, and which part of the residual goes along with it.
      const Vec3 by = items[i].by_xyz * (*matrix * light[i]), left = toVec(at) - toVec(items[i].lab);
      const std::array<double, 2> place{items[i].x, items[i].y};
      for (std::size_t p = 0; p < 2; ++p) {
        for (std::size_t q2 = 0; q2 < 2; ++q2) lean[p][q2] += weight[i] * place[p] * place[q2] * dot(by, by);
        lean[p][2] += weight[i] * place[p] * dot(by, left);
      }
    }
    if (solve<2>(lean))
      for (std::size_t p = 0; p < 2; ++p) match.slope[p] = std::clamp(match.slope[p] + lean[p][2], -kMostLean, kMostLean);
  }
  match.to_xyz = *matrix;
  std::vector<double> used;
  for (const double off : match.off)
    if (std::isfinite(off)) used.push_back(off);
  std::ranges::sort(used);
  used.resize(std::max(kLeastPatches, used.size() * 5 / 6));
  match.error = 0;
  for (const double off : used) match.error += off / static_cast<double>(used.size());
  match.agreeing = static_cast<std::size_t>(std::ranges::count_if(match.off, [](double off) { return off <= kSamePatch; }));
  return match;
}

/// Weights for the patches that agree with a 3×3 through a few of them: of many draws, the one with the most agreement. With many wrong patches a fit
/// to all of them starts in the wrong place (Fischler and Bolles 1981).
std::vector<double> drawnStart(const std::vector<Item>& items) {
  std::vector<std::size_t> usable;
  std::vector<Vec3> light;
  for (std::size_t i = 0; i < items.size(); ++i) {
    light.push_back(items[i].light);
    if (items[i].weight > 0) usable.push_back(i);
  }
  std::vector<double> best(items.size(), 1.0);
  if (usable.size() < kLeastPatches) return best;
  std::mt19937 random(1);  // the same every time
  double most = 0;
  std::vector<double> weight(items.size()), agrees(items.size());
  for (int draw = 0; draw < kDraws; ++draw) {
    std::ranges::fill(weight, 0.0);
    for (std::size_t k = 0; k < kDrawn; ++k) {
      std::swap(usable[k], usable[k + random() % (usable.size() - k)]);
      weight[usable[k]] = 1;
    }
    const auto matrix = fitMatrix(items, light, weight);
    if (!matrix) continue;
    double all = 0;
    for (const std::size_t i : usable) {
      const double q = labDistance(colourOf(*matrix, light[i]), items[i].lab) / (0.7 * kSamePatch);
      agrees[i] = 1 / ((1 + q * q) * (1 + q * q));
      all += agrees[i];
    }
    if (all > most) most = all, best = agrees;
  }
  return best;
}

}  // namespace

std::size_t gridIndex(std::size_t patch, int columns, int rows, ChartArrangement arrangement) {
  const auto across = static_cast<std::size_t>(columns), down = static_cast<std::size_t>(rows);
  std::size_t column = patch % across, row = patch / across;
  if (arrangement.mirrored) column = across - 1 - column;
  if (arrangement.turned) column = across - 1 - column, row = down - 1 - row;
  return row * across + column;
}

bool betterMatch(const ChartMatch& a, const ChartMatch& b) {
  return a.agreeing != b.agreeing ? a.agreeing > b.agreeing : a.error < b.error;
}

namespace {

std::vector<Item> matchItems(std::span<const GridColour> grid, const ChartReference& reference, ChartArrangement arrangement) {
  std::vector<Item> items;
  // The brightest channel of all decides what counts as 1, so that the fit does not depend on the exposure.
  double brightest = 0;
  for (const GridColour& g : grid)
    if (g.weight > 0) brightest = std::max({brightest, g.light[0], g.light[1], g.light[2]});
  const double unit = brightest > 0 ? 1 / brightest : 1;
  for (std::size_t i = 0; i < reference.patches.size(); ++i) {
    const std::size_t at = gridIndex(i, reference.columns, reference.rows, arrangement);
    const Xyz<D50> xyz = toXyz(reference.patches[i].lab);
    const auto columns = static_cast<std::size_t>(reference.columns);
    const double column = static_cast<double>(at % columns), row = static_cast<double>(at / columns);
    items.push_back({unit * grid[at].light, toVec(xyz), reference.patches[i].lab, labByXyz(xyz), grid[at].weight,
                     2 * (column + 0.5) / reference.columns - 1, 2 * (row + 0.5) / reference.rows - 1});
  }
  return items;
}

ChartMatch matchOf(const std::vector<Item>& items, ChartArrangement arrangement, const std::vector<double>& start = {}) {
  ChartMatch plain = fit(items, false, start), curved = fit(items, true, start);
  ChartMatch& best = betterMatch(curved, plain) ? curved : plain;
  best.arrangement = arrangement;
  return std::move(best);
}

ChartMatch bestOf(std::span<const GridColour> grid, const ChartReference& reference, std::span<const ChartArrangement> arrangements) {
  std::optional<ChartMatch> best;
  const auto consider = [&](ChartMatch match) {
    if (!best || betterMatch(match, *best)) best = std::move(match);
  };
  for (const ChartArrangement& arrangement : arrangements) consider(matchOf(matchItems(grid, reference, arrangement), arrangement));
  if (best->error <= kGoodFit) return *best;
  for (const ChartArrangement& arrangement : arrangements) {
    const auto items = matchItems(grid, reference, arrangement);
    consider(matchOf(items, arrangement, drawnStart(items)));
  }
  return *best;
}

}  // namespace

ChartMatch matchChart(std::span<const GridColour> grid, const ChartReference& reference, ChartArrangement arrangement) {
  return bestOf(grid, reference, std::span(&arrangement, 1));
}

ChartMatch matchChart(std::span<const GridColour> grid, const ChartReference& reference) {
  static constexpr std::array<ChartArrangement, 4> kAll{{{false, false}, {true, false}, {false, true}, {true, true}}};
  return bestOf(grid, reference, kAll);
}

}  // namespace huewright
