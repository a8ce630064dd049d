#include "photo/raw_cells.hpp"

#include <gtest/gtest.h>

#include <string>

namespace huewright {
namespace {

FilterAt repeat(const std::string& pattern, int side) {
  return [pattern, side](int row, int column) {
    return static_cast<int>(std::string("RGB").find(pattern[std::size_t(row % side * side + column % side)]));
  };
}

TEST(RawCells, cellsOfPatterns) {
  for (const char* bayer : {"RGGB", "BGGR", "GRBG", "GBRG"}) {
    const auto pattern = FilterPattern::make(repeat(bayer, 2));
    ASSERT_TRUE(pattern) << bayer;
    EXPECT_EQ(pattern->side(), 2);
    EXPECT_EQ(pattern->row(25)[1], repeat(bayer, 2)(1, 1));
  }
  const auto six = FilterPattern::make(repeat("GBGGRG" "RGRBGB" "GBGGRG" "GRGGBG" "BGBRGR" "GRGGBG", 6));
  ASSERT_TRUE(six);
  EXPECT_EQ(six->side(), 3);
  EXPECT_FALSE(FilterPattern::make(repeat("RGGR", 2))) << "no blue";
  EXPECT_FALSE(FilterPattern::make(repeat("RGGY", 2))) << "a fourth colour";
  EXPECT_FALSE(FilterPattern::make([](int row, int column) { return row < 12 ? 1 : (row + column) % 3; })) << "not even";
}

TEST(RawCells, edgesRepeatTheLastWholeCell) {
  const std::vector<std::uint16_t> codes{110, 130, 120, 9, 1,   //
                                         150, 200, 140, 8, 1,  //
                                         7,   7,   7,   7, 7};
  SensorData data;
  data.codes = codes.data();
  data.pitch = 5;
  data.size = {3, 3};
  data.filter = FilterPattern::make(repeat("RGGB", 2));
  data.black.assign(std::size_t{kFilterPeriod} * kFilterPeriod, 100.0F);
  data.white = 200;
  data.top = {200, 200, 200};
  const CellReader reader(data);
  ASSERT_EQ(reader.across(), 2);
  ASSERT_EQ(reader.down(), 2);
  std::vector<float> light;
  std::vector<std::uint8_t> clip;
  for (const int row : {0, 1}) {
    reader.read(row, light, clip);
    const std::vector<float> want{0.1F, 0.4F, 1.0F, 0.1F, 0.4F, 1.0F};
    ASSERT_EQ(light.size(), want.size());
    for (std::size_t i = 0; i < want.size(); ++i) EXPECT_NEAR(light[i], want[i], 1e-6) << row << " " << i;
    EXPECT_EQ(clip, (std::vector<std::uint8_t>{4, 4}));
  }
}

TEST(RawCells, pixelsWithAllColours) {
  const std::vector<std::uint16_t> codes{110, 60, 100, 9, 160, 300, 130, 9};
  SensorData data;
  data.codes = codes.data();
  data.pitch = 8;
  data.samples = 4;
  data.size = {2, 1};
  data.black = {100, 50, 100};
  data.white = 300;
  data.top = {290, 290, 290};
  std::vector<float> light;
  std::vector<std::uint8_t> clip;
  CellReader(data).read(0, light, clip);
  const std::vector<float> want{10 / 200.0F, 10 / 250.0F, 0, 60 / 200.0F, 1, 30 / 200.0F};
  for (std::size_t i = 0; i < want.size(); ++i) EXPECT_NEAR(light[i], want[i], 1e-6) << i;
  EXPECT_EQ(clip, (std::vector<std::uint8_t>{32, 2}));
}

}  // namespace
}  // namespace huewright
