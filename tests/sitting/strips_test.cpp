#include "sitting/strips.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace huewright {
namespace {

Quad stripBox(double x, double y, double w, double h) { return {{Point{x, y}, Point{x + w, y}, Point{x + w, y + h}, Point{x, y + h}}}; }

TEST(Strips, AreTakenTogetherWhicheverWayTheyLie) {
  const struct {
    const char* how;
    std::vector<Quad> strips;
    Quad whole;
  } cases[] = {
      {"one", {stripBox(10, 20, 30, 40)}, stripBox(10, 20, 30, 40)},
      {"to the right", {stripBox(0, 0, 10, 40), stripBox(10, 0, 10, 40), stripBox(20, 0, 10, 40)}, stripBox(0, 0, 30, 40)},
      {"to the left", {stripBox(20, 0, 10, 40), stripBox(10, 0, 10, 40), stripBox(0, 0, 10, 40)}, stripBox(0, 0, 30, 40)},
      {"downwards", {stripBox(0, 0, 40, 10), stripBox(0, 10, 40, 10)}, stripBox(0, 0, 40, 20)},
      {"upwards", {stripBox(0, 10, 40, 10), stripBox(0, 0, 40, 10)}, stripBox(0, 0, 40, 20)},
  };
  for (const auto& one : cases) EXPECT_EQ(aroundStrips(one.strips), one.whole) << one.how;
}

}  // namespace
}  // namespace huewright
