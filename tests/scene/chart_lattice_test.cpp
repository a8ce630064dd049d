#include "scene/chart_lattice.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <random>

#include "scene/homography.hpp"
#include "support/chart_picture.hpp"

namespace huewright {
namespace {

using fixtures::chartHomography;

/// A cell of the grid as flatCells would have it: a parallelogram of `share` of a step.
FlatCell cellAt(const Mat3& h, double column, double row, double share = 0.75) {
  const auto place = [&](double x, double y) { return mapped(h, {column + 0.5 + x, row + 0.5 + y}); };
  const Point a = place(-share / 2, 0), b = place(share / 2, 0), c = place(0, -share / 2), d = place(0, share / 2);
  const Point u{b.x - a.x, b.y - a.y}, v{d.x - c.x, d.y - c.y};
  return {place(0, 0), std::abs(u.x * v.y - u.y * v.x), (u.x * u.x + v.x * v.x) / 12, (u.x * u.y + v.x * v.y) / 12, (u.y * u.y + v.y * v.y) / 12};
}

std::vector<FlatCell> cellGrid(const Mat3& h, int columns, int rows) {
  std::vector<FlatCell> cells;
  for (int r = 0; r < rows; ++r)
    for (int c = 0; c < columns; ++c) cells.push_back(cellAt(h, c, r));
  return cells;
}

constexpr Size kLatticeSize{1000, 750};

TEST(Lattices, AGridIsFoundWholeAtAnyTurn) {
  for (int turn = 0; turn < 360; turn += 30) {
    const Mat3 h = chartHomography({.turn = static_cast<double>(turn), .tilt = 35, .towards = 2.0 * turn}, kLatticeSize);
    const auto found = lattices(cellGrid(h, 6, 4), 9);
    ASSERT_EQ(found.size(), 1U) << turn;
    EXPECT_EQ(found[0].cells.size(), 24U);
    EXPECT_LT(found[0].sd, 1e-3);  // the fit stops within 1e-5
    for (const LatticeCell& cell : found[0].cells) {
      const Point at = mapped(found[0].homography, {cell.column + 0.5, cell.row + 0.5});
      EXPECT_NEAR(std::hypot(at.x - cell.centre.x, at.y - cell.centre.y), 0, 1e-3);
      EXPECT_GT(areaScale(found[0].homography, {cell.column + 0.5, cell.row + 0.5}), 0);
    }
  }
}

TEST(Lattices, HolesAndStraysAreBorne) {
  const Mat3 h = chartHomography({.turn = 20, .tilt = 25, .towards = 70}, kLatticeSize);
  std::mt19937_64 random(3);
  for (int round = 0; round < 20; ++round) {
    auto cells = cellGrid(h, 6, 4);
    std::shuffle(cells.begin(), cells.end(), random);
    cells.resize(16);
    for (int i = 0; i < 30; ++i) {
      FlatCell stray = cells[static_cast<std::size_t>(i) % 16];
      stray.centre = {std::uniform_real_distribution<double>(0, 1000)(random), std::uniform_real_distribution<double>(0, 750)(random)};
      cells.push_back(stray);
    }
    const auto found = lattices(cells, 9);
    ASSERT_FALSE(found.empty()) << round;
    EXPECT_GE(found[0].cells.size(), 14U) << round;  // a stray may lie nearer than a patch by chance
    EXPECT_LT(found[0].sd, 3);
  }
}

// Rows of keys are shifted against each other: no step down leads through three of them.
TEST(Lattices, RowsOfKeysAreAtMostTwoRows) {
  const Mat3 h = chartHomography({.turn = 10, .tilt = 10}, kLatticeSize);
  std::vector<FlatCell> keys;
  for (int r = 0; r < 5; ++r)
    for (int c = 0; c < 10; ++c) keys.push_back(cellAt(h, 0.6 * c + 0.45 * (r % 2), 0.8 * r, 0.5));
  for (const Lattice& lattice : lattices(keys, 9)) EXPECT_LE(lattice.cells.size(), 20U);
  EXPECT_TRUE(lattices({}, 9).empty());
  EXPECT_TRUE(lattices(cellGrid(h, 6, 1), 5).empty());
}

TEST(Lattices, TwoGridsAreTwo) {
  auto cells = cellGrid(chartHomography({.turn = 12, .width = 0.4, .middle = {0.25, 0.5}}, kLatticeSize), 6, 4);
  const auto other = cellGrid(chartHomography({.turn = 100, .width = 0.3, .middle = {0.75, 0.5}}, kLatticeSize), 6, 4);
  cells.insert(cells.end(), other.begin(), other.end());
  const auto found = lattices(cells, 9);
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found[0].cells.size() + found[1].cells.size(), 48U);
}

}  // namespace
}  // namespace huewright
