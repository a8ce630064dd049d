#include "paper/pour_cup.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <random>

namespace huewright {
namespace {

TEST(LabelPlaces, StandAtTheirMarksWhereThereIsRoom) {
  EXPECT_EQ(labelPlaces({5, 20, 60}, 4), (std::vector<double>{5, 20, 60}));
  EXPECT_TRUE(labelPlaces({}, 4).empty());
}

// Worked by hand: 20 and 21 part to 18.5 and 22.5; a mark at the floor is lifted by half a gap.
TEST(LabelPlaces, PartWhereMarksAreClose) {
  const auto two = labelPlaces({20, 21}, 4);
  EXPECT_NEAR(two[0], 18.5, 1e-12);
  EXPECT_NEAR(two[1], 22.5, 1e-12);
  EXPECT_EQ(labelPlaces({0.1}, 4), (std::vector<double>{2}));
}

TEST(LabelPlaces, AreNeverCloserThanTheGapNorOutOfOrder) {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> mark(0, 62);
  for (int trial = 0; trial < 500; ++trial) {
    std::vector<double> marks(1 + static_cast<std::size_t>(trial % 13));
    for (double& m : marks) m = mark(random);
    std::ranges::sort(marks);
    const auto places = labelPlaces(marks, 4.4);
    ASSERT_EQ(places.size(), marks.size());
    EXPECT_GE(places.front(), 2.2);
    for (std::size_t i = 1; i < places.size(); ++i) EXPECT_GE(places[i] - places[i - 1], 4.4 - 1e-9);
    const double farthest = 4.4 * static_cast<double>(marks.size());
    for (std::size_t i = 0; i < places.size(); ++i) EXPECT_LE(std::abs(places[i] - marks[i]), farthest);
  }
}

}  // namespace
}  // namespace huewright
