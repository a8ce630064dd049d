#include "scene/chart_finder.hpp"

#include <algorithm>
#include <cmath>
#include <new>
#include <opencv2/core.hpp>
#include <string>

#include "scene/chart_lattice.hpp"
#include "scene/flat_cells.hpp"
#include "scene/homography.hpp"
#include "scene/patch_edges.hpp"
#include "scene/scene.hpp"

namespace huewright {
namespace {

constexpr double kLeastSeen = 0.36;       // share of the patches; common sense: the rest must come from the colours
constexpr std::size_t kMostProposals = 24;
constexpr double kUsualShare = 0.82;      // of the chart whose reference comes with the program, measured on photographs
constexpr double kMarkedWithin = 0.4;     // of the distance between patches: a person's click on a phone; common sense
constexpr int kSmallestPicture = 32;      // pixels

Mat3 shift(double x, double y) { return {{{{1, 0, x}, {0, 1, y}, {0, 0, 1}}}}; }

/// Chart units to those of a lattice in which the chart stands upright, its left side at the top.
Mat3 quarterTurn(int rows) { return {{{{0, -1, static_cast<double>(rows)}, {1, 0, 0}, {0, 0, 1}}}}; }

Mat3 unitScale(const Mat3& m) { return (1 / m(2, 2)) * m; }

GridProposal proposal(const Mat3& to_preview, const Preview& preview, int columns, int rows, double share, double sd) {
  GridProposal p;
  p.homography = unitScale(Mat3::diagonal({1 / preview.scale, 1 / preview.scale, 1}) * to_preview);
  const double near = 0.5 * (1 - share), right = columns - near, bottom = rows - near;
  p.corners = {{{mapped(p.homography, {near, near}), mapped(p.homography, {right, near}), mapped(p.homography, {right, bottom}), mapped(p.homography, {near, bottom})}}};
  p.patch_share = share;
  p.seen.assign(static_cast<std::size_t>(columns * rows), false);
  p.sd = sd;
  return p;
}

/// True when the whole window lies before the horizon.
bool beforeHorizon(const Mat3& h, int columns, int rows) {
  for (const Point& p : {Point{0, 0}, Point(columns, 0), Point(columns, rows), Point(0, rows)})
    if (!(areaScale(h, p) > 0)) return false;
  return true;
}

/// Every window of the chart's size that holds most of the lattice's cells.
void windows(const Lattice& lattice, const Preview& preview, int columns, int rows, double share, std::vector<GridProposal>& out) {
  const auto [left, right] = std::ranges::minmax(lattice.cells, {}, &LatticeCell::column);
  const auto [top, bottom] = std::ranges::minmax(lattice.cells, {}, &LatticeCell::row);
  const double all = columns * rows;
  for (const bool upright : {false, true}) {
    const int across = upright ? rows : columns, down = upright ? columns : rows;
    const auto inside = [&](const LatticeCell& cell, int c, int r) { return cell.column >= c && cell.row >= r && cell.column < c + across && cell.row < r + down; };
    for (int r = top.row - down + 1; r <= bottom.row; ++r)
      for (int c = left.column - across + 1; c <= right.column; ++c) {
        const auto held = std::ranges::count_if(lattice.cells, [&](const LatticeCell& cell) { return inside(cell, c, r); });
        if (static_cast<double>(held) < kLeastSeen * all) continue;
        const auto strays = static_cast<double>(lattice.cells.size()) - static_cast<double>(held);
        Mat3 h = lattice.homography * shift(c, r);
        if (upright) h = h * quarterTurn(rows);
        if (!beforeHorizon(h, columns, rows)) continue;
        GridProposal p = proposal(h, preview, columns, rows, share, lattice.sd);
        for (const LatticeCell& cell : lattice.cells) {
          if (!inside(cell, c, r)) continue;
          const int x = cell.column - c, y = cell.row - r;
          // Upright, the chart's x runs down the lattice and its y runs to the left.
          const int column = upright ? y : x, row = upright ? rows - 1 - x : y;
          p.seen[static_cast<std::size_t>(row * columns + column)] = true;
        }
        p.score = std::max(0.0, static_cast<double>(held) / all - 0.5 * strays / all);
        out.push_back(std::move(p));
      }
  }
}

std::vector<GridProposal> findGrids(const Preview& preview, int columns, int rows) {
  const std::vector<FlatCell> cells = flatCells(preview);
  std::vector<GridProposal> all;
  const auto least = static_cast<std::size_t>(std::ceil(kLeastSeen * columns * rows));
  for (Lattice& lattice : lattices(cells, least)) {
    double share = kUsualShare;
    std::vector<std::pair<int, int>> places;
    for (const LatticeCell& cell : lattice.cells) places.emplace_back(cell.column, cell.row);
    if (const auto fit = fitByEdges(preview, lattice.homography, places, share)) {
      lattice.homography = fit->homography;
      lattice.sd = fit->sd;
      share = fit->share;
    }
    windows(lattice, preview, columns, rows, share, all);
  }
  std::ranges::stable_sort(all, std::ranges::greater{}, &GridProposal::score);
  // What holds far fewer of the patches than the best is that one shifted.
  if (!all.empty()) std::erase_if(all, [best = all.front().score](const GridProposal& p) { return p.score < 0.5 * best; });
  if (all.size() > kMostProposals) all.resize(kMostProposals);
  return all;
}

/// True when the proposal's corners are those marked, from whichever corner they were begun.
bool meant(const GridProposal& proposal, const Quad& marked, int columns, int rows) {
  const double step = std::sqrt(std::abs(areaScale(proposal.homography, {0.5 * columns, 0.5 * rows})));
  for (std::size_t first = 0; first < 4; ++first) {
    double worst = 0;
    for (std::size_t i = 0; i < 4; ++i) {
      const Point a = proposal.corners.corners[i], b = marked.corners[(i + first) % 4];
      worst = std::max(worst, std::hypot(a.x - b.x, a.y - b.y));
    }
    if (worst <= kMarkedWithin * step) return true;
  }
  return false;
}

std::vector<GridProposal> byHand(const Preview& preview, const Quad& corners, int columns, int rows) {
  std::vector<GridProposal> all = findGrids(preview, columns, rows);
  std::erase_if(all, [&](const GridProposal& p) { return !meant(p, corners, columns, rows); });
  if (!all.empty()) return all;
  const double near = 0.5 * (1 - kUsualShare), right = columns - near, bottom = rows - near;
  const std::array<Point, 4> grid{{{near, near}, {right, near}, {right, bottom}, {near, bottom}}};
  std::vector<std::pair<int, int>> places;
  for (int r = 0; r < rows; ++r)
    for (int c = 0; c < columns; ++c) places.emplace_back(c, r);
  for (std::size_t first = 0; first < 2; ++first) {
    std::array<Point, 4> turned;
    for (std::size_t i = 0; i < 4; ++i) turned[i] = {corners.corners[(i + first) % 4].x * preview.scale, corners.corners[(i + first) % 4].y * preview.scale};
    const auto rough = fitHomography(grid, turned);
    if (!rough || !beforeHorizon(rough->matrix, columns, rows)) continue;
    const auto fit = fitByEdges(preview, rough->matrix, places, kUsualShare);
    GridProposal p = fit && beforeHorizon(fit->homography, columns, rows) ? proposal(fit->homography, preview, columns, rows, fit->share, fit->sd)
                                                                        : proposal(rough->matrix, preview, columns, rows, kUsualShare, 0);
    p.seen.assign(p.seen.size(), true);
    p.score = fit ? static_cast<double>(fit->patches) / (columns * rows) : 0;
    all.push_back(std::move(p));
  }
  std::ranges::stable_sort(all, std::ranges::greater{}, &GridProposal::score);
  return all;
}

template <class Work>
Result<std::vector<GridProposal>> guarded(const Preview& preview, int columns, int rows, const Work& work) {
  const auto pixels = static_cast<std::size_t>(std::max(0, preview.size.width)) * static_cast<std::size_t>(std::max(0, preview.size.height));
  if (preview.rgb.size() != 3 * pixels || !(preview.scale > 0)) return fail(Code::Internal, "a preview of the wrong length");
  if (rows < 2 || columns <= rows || columns > 64) return fail(Code::Internal, "a chart of " + std::to_string(columns) + " by " + std::to_string(rows) + " patches");
  try {
    return work();
  } catch (const std::bad_alloc&) {
    return fail(Code::OutOfMemory, "finding the chart");
  } catch (const cv::Exception& error) {
    if (error.code == cv::Error::StsNoMem) return fail(Code::OutOfMemory, "finding the chart");
    return fail(Code::Internal, "finding the chart: " + error.err);
  }
}

}  // namespace

Result<std::vector<GridProposal>> findChartGrids(const Preview& preview, int columns, int rows) {
  return guarded(preview, columns, rows, [&]() -> Result<std::vector<GridProposal>> {
    if (preview.size.width < kSmallestPicture || preview.size.height < kSmallestPicture) return std::vector<GridProposal>{};
    return findGrids(preview, columns, rows);
  });
}

Result<std::vector<GridProposal>> gridsByHand(const Preview& preview, const Quad& corners, int columns, int rows) {
  return guarded(preview, columns, rows, [&]() -> Result<std::vector<GridProposal>> {
    const Quad quad = clockwise(corners);
    if (!isConvex(quad)) return fail(Code::RegionFolded, "the chart");
    for (std::size_t i = 0; i < 4; ++i) {
      const Point a = quad.corners[i], b = quad.corners[(i + 1) % 4];
      if (!(std::hypot(a.x - b.x, a.y - b.y) >= kShortestSide * rows))
        return fail(Code::RegionTooSmall, "The chart is under " + std::to_string(static_cast<int>(kShortestSide)) + " pixels a patch");
    }
    if (preview.size.width < kSmallestPicture || preview.size.height < kSmallestPicture) return fail(Code::RegionTooSmall, "The picture is too small for a chart");
    return byHand(preview, quad, columns, rows);
  });
}

}  // namespace huewright
