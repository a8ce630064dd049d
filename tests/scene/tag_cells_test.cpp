#include "scene/tag_cells.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <random>

namespace huewright {
namespace {

const TagText kCellsTag{"frame 3", TagParts{1, 4}, 4, 5};

TagCells quarterClockwise(const TagCells& cells) {
  TagCells out{};
  for (std::size_t y = 0; y < kTagData; ++y)
    for (std::size_t x = 0; x < kTagData; ++x) out[x][kTagData - 1 - y] = cells[y][x];
  return out;
}

TEST(TagCells, AreReadInEveryTurn) {
  TagCells cells = tagCells(kCellsTag).value();
  for (int turns = 0; turns < 4; ++turns, cells = quarterClockwise(cells)) {
    const auto read = readCells(cells);
    ASSERT_TRUE(read) << turns;
    EXPECT_EQ(read->text, kCellsTag);
    EXPECT_EQ(read->turns, turns);
    EXPECT_EQ(read->mended, 0U);
  }
}

TEST(TagCells, AStainIsMendedAndALargerOneIsNot) {
  const TagCells good = tagCells(kCellsTag).value();
  const auto stained = [&](std::size_t side) {
    TagCells cells = good;
    for (std::size_t y = 5; y < 5 + side; ++y)
      for (std::size_t x = 6; x < 6 + side; ++x) cells[y][x] = true;
    return cells;
  };
  for (const std::size_t side : {1U, 3U, 4U}) {
    const auto read = readCells(stained(side));
    ASSERT_TRUE(read) << side;
    EXPECT_EQ(read->text, kCellsTag);
  }
  EXPECT_GT(readCells(stained(4))->mended, 0U);
  EXPECT_FALSE(readCells(stained(12)));
}

TEST(TagCells, AMirroredOneAndChanceAreNone) {
  TagCells mirrored = tagCells(kCellsTag).value();
  for (auto& row : mirrored) std::ranges::reverse(row);
  EXPECT_FALSE(readCells(mirrored));
  std::mt19937 random(3);
  for (int i = 0; i < 3000; ++i) {
    TagCells cells{};
    for (auto& row : cells)
      for (bool& cell : row) cell = random() & 1U;
    EXPECT_FALSE(readCells(cells));
  }
  EXPECT_FALSE(readCells(TagCells{}));
}

TEST(TagCells, AreMixedEvenForShortNames) {
  for (const char* name : {"a", "  1", "~~~~~~~~~~~~~~~~~~~~"}) {
    const TagCells cells = tagCells({name, {}, {}, {}}).value();
    int black = 0;
    for (const auto& row : cells)
      for (const bool cell : row) black += cell;
    EXPECT_GT(black, 120) << name;
    EXPECT_LT(black, 204) << name;
  }
}

TEST(TagCells, FramesAreBlackThenWhite) {
  const TagCells cells = tagCells(kCellsTag).value();
  const auto all = withFrames(cells);
  for (std::size_t i = 0; i < kTagAcross; ++i)
    for (const auto& [x, y] : {std::pair{i, std::size_t{0}}, {i, kTagAcross - 1}, {std::size_t{0}, i}, {kTagAcross - 1, i}}) EXPECT_TRUE(all[y][x]);
  for (std::size_t i = 1; i + 1 < kTagAcross; ++i)
    for (const auto& [x, y] : {std::pair{i, std::size_t{1}}, {i, kTagAcross - 2}, {std::size_t{1}, i}, {kTagAcross - 2, i}}) EXPECT_FALSE(all[y][x]);
  for (std::size_t y = 0; y < kTagData; ++y)
    for (std::size_t x = 0; x < kTagData; ++x) EXPECT_EQ(all[y + 2][x + 2], cells[y][x]);
}

}  // namespace
}  // namespace huewright
