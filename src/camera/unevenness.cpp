#include "camera/unevenness.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace huewright {
namespace {

constexpr int kBlocksAlong = 24;                    // of the longer side
constexpr double kOutline = 0.015;                  // of each side
constexpr double kRimFrom = 0.85, kMiddleTo = 0.5;  // of the half-extent
constexpr double kUnevenRim = 0.4;                  // of the shorter half-extent: how far in the film's edge may reach
constexpr int kRimPieces = 16, kMiddlePieces = 3;   // along the rim; across the middle
constexpr int kPiecesAlong = 6;                     // of the panel's longer side
constexpr std::size_t kFewBlocks = 40, kFewPieces = 6;
constexpr int kLongest = 720;

/// One block: where it lies (−1..1 along each side), its colour, and half the difference of its two halves.
struct Cell {
  double x = 0, y = 0;
  Vec3 lab{}, halves{};
  bool rim() const { return std::max(std::abs(x), std::abs(y)) >= kRimFrom; }
  bool middle() const { return std::max(std::abs(x), std::abs(y)) <= kMiddleTo; }
};

Vec3 labOf(const Vec3& sum, int count) {
  const Vec3 mean = (1.0 / count) * sum;
  return toVec(toLab(Xyz<D50>{mean[0], mean[1], mean[2]}));
}
Lab<D50> asLab(const Vec3& v) { return {v[0], v[1], v[2]}; }

std::vector<Cell> cellsOf(const Raster& upright, std::span<const Kept> kept) {
  const int width = upright.rect.width, height = upright.rect.height;
  const int left = static_cast<int>(std::ceil(kOutline * width)), top = static_cast<int>(std::ceil(kOutline * height));
  const int inner_width = width - 2 * left, inner_height = height - 2 * top;
  const double side = std::max(inner_width, inner_height) / static_cast<double>(kBlocksAlong);
  if (side < 2) return {};
  const auto blocksIn = [side](int length) { return std::max(1, static_cast<int>(std::lround(length / side))); };
  const int columns = blocksIn(inner_width), rows = blocksIn(inner_height);
  const int square = std::max(1, static_cast<int>(side / 4));
  std::vector<Cell> cells;
  for (int r = 0; r < rows; ++r)
    for (int c = 0; c < columns; ++c) {
      const int x0 = left + c * inner_width / columns, x1 = left + (c + 1) * inner_width / columns;
      const int y0 = top + r * inner_height / rows, y1 = top + (r + 1) * inner_height / rows;
      std::array<Vec3, 2> sums{};
      std::array<int, 2> counts{};
      for (int y = y0; y < y1; ++y)
        for (int x = x0; x < x1; ++x) {
          const auto i = static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x);
          if (kept[i] != Kept::Yes || upright.clip[i] != 0) continue;
          const auto half = static_cast<std::size_t>(((x - x0) / square + (y - y0) / square) & 1);
          for (std::size_t k = 0; k < 3; ++k) sums[half][k] += static_cast<double>(upright.xyz[3 * i + k]);
          ++counts[half];
        }
      const int count = counts[0] + counts[1];
      if (2 * count < (x1 - x0) * (y1 - y0) || counts[0] == 0 || counts[1] == 0) continue;
      Cell cell{(c + 0.5) * 2 / columns - 1, (r + 0.5) * 2 / rows - 1, labOf(sums[0] + sums[1], count), {}};
      cell.halves = 0.5 * (labOf(sums[0], counts[0]) - labOf(sums[1], counts[1]));
      cells.push_back(cell);
    }
  return cells;
}

/// Least squares of values, three at a time, on N columns of about unit size; a column that tells nothing gets a zero (a ridge of a millionth).
template <std::size_t N>
std::array<Vec3, N> fittedRows(const std::vector<std::array<double, N>>& rows, const std::vector<Vec3>& values) {
  std::array<std::array<double, N + 3>, N> m{};
  for (std::size_t i = 0; i < rows.size(); ++i)
    for (std::size_t r = 0; r < N; ++r) {
      for (std::size_t c = 0; c < N; ++c) m[r][c] += rows[i][r] * rows[i][c];
      for (std::size_t k = 0; k < 3; ++k) m[r][N + k] += rows[i][r] * values[i][k];
    }
  for (std::size_t p = 0; p < N; ++p) m[p][p] += 1e-6 * static_cast<double>(rows.size());
  for (std::size_t p = 0; p < N; ++p)  // Gauss and Jordan without pivots: the matrix is positive definite
    for (std::size_t r = 0; r < N; ++r) {
      if (r == p) continue;
      const double by = m[r][p] / m[p][p];
      for (std::size_t c = p; c < N + 3; ++c) m[r][c] -= by * m[p][c];
    }
  std::array<Vec3, N> found{};
  for (std::size_t r = 0; r < N; ++r)
    for (std::size_t k = 0; k < 3; ++k) found[r][k] = m[r][N + k] / m[r][r];
  return found;
}

template <std::size_t N>
Vec3 surface(const std::array<double, N>& row, const std::array<Vec3, N>& found) {
  Vec3 sum{};
  for (std::size_t i = 0; i < N; ++i) sum = sum + row[i] * found[i];
  return sum;
}

double squared(const Vec3& v) { return dot(v, v); }

/// Means over pieces of the panel, for the scatter of what is not independent from block to block.
class Pieces {
 public:
  explicit Pieces(std::size_t count) : sums_(count), counts_(count) {}
  void add(std::size_t piece, const Vec3& value) {
    sums_[piece] = sums_[piece] + value;
    counts_[piece] += 1;
  }
  std::vector<Vec3> means(double at_least) const {
    std::vector<Vec3> out;
    for (std::size_t i = 0; i < sums_.size(); ++i)
      if (counts_[i] >= at_least) out.push_back((1 / counts_[i]) * sums_[i]);
    return out;
  }

 private:
  std::vector<Vec3> sums_;
  std::vector<double> counts_;
};

/// Covariance of the mean of independent values.
Mat3 covarianceOfMean(const std::vector<Vec3>& values) {
  Vec3 mean{};
  const auto n = static_cast<double>(values.size());
  for (const Vec3& v : values) mean = mean + (1 / n) * v;
  Mat3 sum{};
  for (const Vec3& v : values) sum = sum + outer(v - mean, v - mean);
  return (1 / (n * (n - 1))) * sum;
}

std::size_t panelPiece(const Cell& cell, Size size) {
  const double longer = std::max(size.width, size.height);
  const auto along = [&](double at, int side) {
    const int pieces = std::max(1, static_cast<int>(std::lround(kPiecesAlong * side / longer)));
    return std::clamp(static_cast<int>((at + 1) / 2 * pieces), 0, pieces - 1);
  };
  return static_cast<std::size_t>(along(cell.y, size.height) * kPiecesAlong + along(cell.x, size.width));
}

/// How far from the edge a block lies, in blocks; those deeper than `kRimDepth` are all one.
std::size_t ringOf(const Cell& cell, Size size) {
  const double side = std::max(size.width, size.height) / static_cast<double>(kBlocksAlong);
  const double far = std::min((1 - std::abs(cell.x)) * size.width, (1 - std::abs(cell.y)) * size.height) / 2;
  const double deepest = kUnevenRim * std::min(size.width, size.height) / 2;
  return static_cast<std::size_t>(std::min(far, deepest) / side);
}

void setMottle(const std::vector<Cell>& cells, Size size, const Mat3& by_lab, const Vec3& mean, Unevenness& out) {
  std::vector<std::array<double, 6>> rows;
  std::vector<Vec3> values;
  std::vector<std::size_t> ring;
  double noise = 0;
  for (const Cell& c : cells) {
    rows.push_back({1, c.x, c.y, c.x * c.x, c.x * c.y, c.y * c.y});
    values.push_back(by_lab * (c.lab - mean));
    ring.push_back(ringOf(c, size));
    noise += squared(by_lab * c.halves);
  }
  // The surface and the rings' levels in turns, each through what the other leaves (backfitting).
  const std::size_t rings = *std::ranges::max_element(ring) + 1;
  std::vector<Vec3> level(rings, Vec3{}), left(values);
  std::array<Vec3, 6> found{};
  for (int round = 0; round < 6; ++round) {
    for (std::size_t i = 0; i < cells.size(); ++i) left[i] = values[i] - level[ring[i]];
    found = fittedRows(rows, left);
    std::vector<double> count(rings, 0);
    level.assign(rings, Vec3{});
    for (const std::size_t r : ring) count[r] += 1;
    for (std::size_t i = 0; i < cells.size(); ++i)
      level[ring[i]] = level[ring[i]] + (1 / count[ring[i]]) * (values[i] - surface(rows[i], found));
  }
  Pieces squares(kPiecesAlong * kPiecesAlong), rests(kPiecesAlong * kPiecesAlong);
  double sum = 0;
  const auto n = static_cast<double>(cells.size());
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const Vec3 rest = values[i] - level[ring[i]] - surface(rows[i], found);
    sum += squared(rest);
    squares.add(panelPiece(cells[i], size), {squared(rest) - squared(by_lab * cells[i].halves), 0, 0});
    rests.add(panelPiece(cells[i], size), rest);
  }
  const auto pieces = squares.means(4), of_rest = rests.means(4);
  if (pieces.size() < kFewPieces) return;
  const double square = std::max(0.0, sum / (n - 6 - static_cast<double>(rings)) - noise / n), square_sd = std::sqrt(covarianceOfMean(pieces)(0, 0));
  out.mottle = std::sqrt(square);
  out.mottle_sd = std::sqrt(square + square_sd) - out.mottle;  // finite where the square is zero
  out.mottle_known = true;

  // The steepest way: the larger eigenvalue of the two slopes' products. Their variance: that of a mean, over the variance of x, 1/3.
  const double xx = squared(found[1]), yy = squared(found[2]), xy = dot(found[1], found[2]);
  out.slope = 2 * std::sqrt(0.5 * (xx + yy + std::hypot(xx - yy, 2 * xy)));
  out.slope_sd = 2 * std::sqrt(3 * trace(covarianceOfMean(of_rest)));
}

void setEdge(const std::vector<Cell>& cells, double bow_sd, Unevenness& out) {
  std::vector<std::array<double, 4>> rows;
  std::vector<Vec3> values;
  std::vector<const Cell*> used;
  for (const Cell& c : cells) {
    if (!c.rim() && !c.middle()) continue;
    rows.push_back({1, c.x, c.y, c.rim() ? 1.0 : 0.0});
    values.push_back(c.lab);
    used.push_back(&c);
  }
  const auto found = fittedRows(rows, values);
  Pieces rim(kRimPieces), middle(kMiddlePieces * kMiddlePieces);
  for (std::size_t i = 0; i < used.size(); ++i) {
    const Cell& c = *used[i];
    const Vec3 rest = values[i] - surface(rows[i], found);
    if (c.rim()) {
      const double turn = std::atan2(c.y, c.x) / (2 * std::numbers::pi) + 0.5;
      rim.add(std::min(static_cast<std::size_t>(turn * kRimPieces), std::size_t{kRimPieces - 1}), rest);
    } else {
      const auto third = [](double at) { return std::clamp(static_cast<int>((at / kMiddleTo + 1) / 2 * kMiddlePieces), 0, kMiddlePieces - 1); };
      middle.add(static_cast<std::size_t>(third(c.y) * kMiddlePieces + third(c.x)), rest);
    }
  }
  const auto on_rim = rim.means(1), in_middle = middle.means(1);
  if (on_rim.size() < kFewPieces || in_middle.size() < 4) return;
  out.centre = asLab(found[0]);
  out.edge = asLab(found[0] + found[3]);
  out.edge_minus_centre = labDifference(out.edge, out.centre);
  const Vec3 xyz = toVec(toXyz(out.edge)), bow = bow_sd * (labByXyz(toXyz(out.edge)) * xyz);
  const DeltaVector delta = deltaVector(out.edge, out.centre);
  const Mat3 of_lab = covarianceOfMean(on_rim) + covarianceOfMean(in_middle) + outer(bow, bow);
  out.edge_covariance = delta.by_panel * of_lab * transpose(delta.by_panel);
  out.edge_de00 = length(delta.u);
  // Along the difference if it stands clear, else in the worst direction.
  const double worst = eigenSymmetric(out.edge_covariance).values[2], whole = squared(delta.u);
  const double variance = whole > 4 * worst ? dot(delta.u, out.edge_covariance * delta.u) / whole : worst;
  out.edge_sd = std::sqrt(std::max(0.0, variance));
  out.edge_known = true;
}

}  // namespace

Unevenness unevenness(const Raster& upright, std::span<const Kept> kept, double bow_sd) {
  Unevenness out;
  const auto cells = cellsOf(upright, kept);
  out.blocks = cells.size();
  if (cells.size() < kFewBlocks) return out;
  Vec3 mean{};
  for (const Cell& c : cells) mean = mean + (1 / static_cast<double>(cells.size())) * c.lab;
  const Mat3 by_lab = deltaVector(asLab(mean), asLab(mean)).by_panel;
  setMottle(cells, {upright.rect.width, upright.rect.height}, by_lab, mean, out);
  setEdge(cells, bow_sd, out);
  return out;
}

Unevenness unevenness(const Raster& photo, const Quad& panel, const Correction& correction, double bow_sd) {
  Raster upright = rectify(photo, panel, uprightSize(panel, kLongest));
  correct(upright, panel, correction);
  return unevenness(upright, keptPixels(upright), bow_sd);
}

}  // namespace huewright
