#include "paper/contours.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <limits>
#include <vector>

namespace huewright {
namespace {

TEST(Contours, ACircleIsOneClosedLineOfItsRadius) {
  constexpr Size kSize{60, 50};
  std::vector<float> values;
  for (int y = 0; y < kSize.height; ++y)
    for (int x = 0; x < kSize.width; ++x) values.push_back(static_cast<float>(std::hypot(x + 0.5 - 30, y + 0.5 - 25)));
  const auto lines = contours(kSize, values, std::vector<bool>(values.size(), true), 12.3);
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_EQ(lines[0].front(), lines[0].back());
  EXPECT_GT(lines[0].size(), 60U);
  for (const Point& p : lines[0]) EXPECT_NEAR(std::hypot(p.x - 30, p.y - 25), 12.3, 0.02);
}

TEST(Contours, OpenLinesEndAtTheRimAndAtWhatIsLeftOut) {
  constexpr Size kSize{20, 10};
  std::vector<float> values;
  for (int y = 0; y < kSize.height; ++y)
    for (int x = 0; x < kSize.width; ++x) values.push_back(static_cast<float>(x));
  std::vector<bool> shown(values.size(), true);
  auto lines = contours(kSize, values, shown, 7.25);
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_EQ(lines[0].size(), 10U);
  for (const Point& p : lines[0]) EXPECT_NEAR(p.x, 7.75, 1e-5);
  EXPECT_NEAR(std::abs(lines[0].front().y - lines[0].back().y), 9, 1e-9);
  for (int x = 0; x < kSize.width; ++x) shown[static_cast<std::size_t>(5 * kSize.width + x)] = false;
  lines = contours(kSize, values, shown, 7.25);
  EXPECT_EQ(lines.size(), 2U);
  EXPECT_TRUE(contours(kSize, values, shown, 99).empty());
}

TEST(Contours, ASaddleGoesByItsMiddle) {
  const std::vector<bool> shown(4, true);
  // High at the top left and the bottom right.
  for (const auto& [high, joined] : {std::pair{3.0f, true}, std::pair{1.2f, false}}) {
    const std::array values{high, 0.0f, 0.0f, high};
    const auto lines = contours({2, 2}, values, shown, 1);
    ASSERT_EQ(lines.size(), 2U);
    for (const auto& line : lines) {
      ASSERT_EQ(line.size(), 2U);
      // Joined in the middle, the lines go round the low corners: top right and bottom left.
      const double x = (line[0].x + line[1].x) / 2, y = (line[0].y + line[1].y) / 2;
      EXPECT_EQ((x > 1) != (y > 1), joined) << x << " " << y;
    }
  }
}

}  // namespace
}  // namespace huewright
