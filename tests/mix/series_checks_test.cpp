#include "mix/series_checks.hpp"

#include <gtest/gtest.h>

#include "mix/series_scene.hpp"

namespace huewright {
namespace {

using namespace mixing;

Series renderedSeries(const std::vector<std::array<double, 3>>& mixes, double sigma, std::uint64_t seed) { return paintedSeries(mixes, 0.4, 4, sigma, 0.03, seed); }

const std::vector<std::array<double, 3>> kSixMixes = {{1, 3, 3}, {1, 3, 5}, {1, 1, 3}, {1, 1, 5}, {1, 2, 4}, {2, 1, 3}};

TEST(SeriesChecks, TenIdenticalPanelsAreOne) {
  Series series = renderedSeries({{1, 3, 4}}, 0.3, 1);
  for (int i = 0; i < 9; ++i) series.panels.push_back(series.panels.front());
  const CheckedSeries checked = withoutCopies(series);
  EXPECT_EQ(checked.series.panels.size(), 1U);
  ASSERT_EQ(checked.cautions.size(), 1U);
  EXPECT_EQ(checked.cautions[0].code, CautionCode::SeriesCopies);
  EXPECT_NE(sentence(checked.cautions[0]).find("9 of the 10 panels"), std::string::npos);
}

TEST(SeriesChecks, RepeatedReadingsAreKept) {
  const CheckedSeries checked = withoutCopies(renderedSeries({{1, 3, 4}, {1, 3, 4}}, 0.3, 1));
  EXPECT_EQ(checked.series.panels.size(), 2U);
  EXPECT_TRUE(checked.cautions.empty());
}

TEST(SeriesChecks, HonestPanelsDoNotContradict) {
  for (std::uint64_t seed = 1; seed <= 15; ++seed) {
    const auto found = findContradiction(renderedSeries(kSixMixes, 0.3, seed), loosePriors(), {.sigma = 0.3});
    ASSERT_TRUE(found);
    EXPECT_FALSE(*found) << seed;
  }
}

TEST(SeriesChecks, AMislabelledPanelIsNamedWithItsLikelyLabel) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    Series swapped = renderedSeries(kSixMixes, 0.3, seed);
    std::swap(swapped.panels[1].strong, swapped.panels[1].weak);
    const auto found = findContradiction(swapped, loosePriors(), {.sigma = 0.3});
    ASSERT_TRUE(found && *found && (*found)->odd) << seed;
    EXPECT_EQ((*found)->odd->panels, std::vector<std::size_t>{1}) << seed;
    EXPECT_EQ((*found)->odd->fits_as, "1:3") << seed;

    Series miscounted = renderedSeries(kSixMixes, 0.3, seed);
    miscounted.panels[3].coats = 3;
    const auto again = findContradiction(miscounted, loosePriors(), {.sigma = 0.3});
    ASSERT_TRUE(again && *again && (*again)->odd) << seed;
    EXPECT_EQ((*again)->odd->panels, std::vector<std::size_t>{3}) << seed;
    EXPECT_EQ((*again)->odd->fits_as, "5 coats") << seed;
  }
}

// Thirty panels: only the likeliest are left out in turn, and the right one is among them.
TEST(SeriesChecks, OneWrongLabelAmongManyIsFound) {
  std::vector<std::array<double, 3>> mixes;
  for (int i = 0; i < 30; ++i) mixes.push_back({1, 1.0 + i % 4, 2.0 + i % 3});
  Series series = paintedSeries(mixes, 0.4, 4, 0.3, 0.03, 4);
  EXPECT_FALSE(*findContradiction(series, loosePriors(), {.sigma = 0.3}));
  series.panels[17].coats += 2;
  const auto found = findContradiction(series, loosePriors(), {.sigma = 0.3});
  ASSERT_TRUE(found && *found && (*found)->odd);
  EXPECT_EQ((*found)->odd->panels, std::vector<std::size_t>{17});
}

// A heavy hand all through one stepped panel is a film, not a wrong label.
TEST(SeriesChecks, HonestStepsDoNotContradict) {
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const auto found = findContradiction(steppedSeries({{1, 3}, {1, 1}, {2, 1}}, 0.3, 0.06, seed), loosePriors(), {.sigma = 0.3});
    ASSERT_TRUE(found);
    EXPECT_FALSE(*found) << seed;
  }
}

TEST(SeriesChecks, AMiscountedStripIsNamed) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    Series series = steppedSeries({{1, 3}, {1, 1}}, 0.3, 0.03, seed);
    series.panels[6].coats = 5;        // it has 3
    const auto found = findContradiction(series, loosePriors(), {.sigma = 0.3});
    ASSERT_TRUE(found && *found && (*found)->odd) << seed;
    EXPECT_EQ((*found)->odd->panels, std::vector<std::size_t>{6}) << seed;
    EXPECT_EQ((*found)->odd->fits_as, "3 coats") << seed;
  }
}

// The strips of a stepped panel agree among themselves about a wrong label: only as a whole is it odd.
TEST(SeriesChecks, AMislabelledSteppedPanelIsNamedAsAWhole) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    Series series = steppedSeries({{1, 3}, {1, 4}, {1, 1}, {2, 1}}, 0.3, 0.03, seed);
    for (std::size_t i = 4; i < 8; ++i) std::swap(series.panels[i].strong, series.panels[i].weak);
    const auto found = findContradiction(series, loosePriors(), {.sigma = 0.3});
    ASSERT_TRUE(found && *found && (*found)->odd) << seed;
    EXPECT_EQ((*found)->odd->panels, (std::vector<std::size_t>{4, 5, 6, 7})) << seed;
    EXPECT_EQ((*found)->odd->fits_as, "1:4") << seed;
  }
}

// Of two panels of one mix that read quite differently, neither can be called the wrong one.
TEST(SeriesChecks, TwoThatContradictAreBothNamed) {
  Series series = renderedSeries({{1, 3, 3}, {1, 3, 3}, {1, 3, 4}}, 0.2, 3);
  series.panels[0].lab.a -= 5;
  series.panels[1].lab.a += 5;
  const auto found = findContradiction(series, loosePriors(), {.sigma = 0.2});
  ASSERT_TRUE(found && *found);
  EXPECT_FALSE((*found)->odd);
  EXPECT_EQ((*found)->between.size(), 2U);
}

}  // namespace
}  // namespace huewright
