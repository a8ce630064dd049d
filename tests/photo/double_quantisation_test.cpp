#include "photo/double_quantisation.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace huewright {
namespace {

/// Coefficients of a Laplace distribution, rounded to one step or to two after each other with the noise of 8-bit pixels between.
CoefficientCounts simulated(int earlier, int now, double scale, int blocks, unsigned seed) {
  std::mt19937 engine(seed);
  const auto uniform = [&] { return (static_cast<double>(engine()) + 0.5) / 4294967296.0; };
  CoefficientCounts c{now, std::vector<std::uint32_t>(64)};
  for (int i = 0; i < blocks; ++i) {
    double value = -scale * std::log(uniform()) * (uniform() < 0.5 ? -1 : 1);
    if (earlier > 0) {
      value = earlier * std::round(value / earlier);
      for (int k = 0; k < 4; ++k) value += 0.6 * (uniform() - 0.5);  // standard deviation 0.35
    }
    const auto size = static_cast<std::size_t>(std::abs(std::lround(value / now)));
    if (size < c.counts.size()) ++c.counts[size];
  }
  return c;
}

TEST(EarlierStep, IsFoundAndNamed) {
  struct Row {
    int earlier, now;
  };
  for (const Row r : {Row{6, 4}, Row{10, 3}, Row{5, 2}, Row{7, 5}, Row{2, 1}, Row{3, 2}, Row{5, 7}}) {
    const auto found = earlierStep(simulated(r.earlier, r.now, 12, 8000, 1));
    ASSERT_TRUE(found);
    EXPECT_EQ(found->step, r.earlier) << "then " << r.now;
    EXPECT_GT(found->gain, 50) << r.earlier << " then " << r.now;
  }
}

TEST(EarlierStep, IsNotMadeUp) {
  for (const int now : {1, 2, 3, 5, 8, 13})
    for (const double scale : {3.0, 8.0, 25.0}) {
      const auto found = earlierStep(simulated(0, now, scale, 8000, 7));
      EXPECT_LT(found ? found->gain : 0, 0.01 * static_cast<double>(found ? found->samples : 1)) << now << " of " << scale;  // a third of what counts
    }
}

TEST(EarlierStep, TheSameStepLeavesNoTrace) {
  const auto found = earlierStep(simulated(5, 5, 12, 8000, 3));
  ASSERT_TRUE(found);
  EXPECT_LT(found->gain, 10);
}

TEST(EarlierStep, FewCoefficientsSayNothing) {
  EXPECT_FALSE(earlierStep(simulated(6, 4, 12, 250, 1)));
  EXPECT_FALSE(earlierStep({4, {}}));
  EXPECT_FALSE(earlierStep({0, std::vector<std::uint32_t>(64, 100)}));
}

TEST(DoubleQuantisation, MostCoefficientsMustAgree) {
  std::vector<CoefficientCounts> all;
  for (unsigned i = 0; i < 9; ++i) all.push_back(simulated(6, 4, 10, 5000, i));
  const DoubleQuantisation twice = doubleQuantisation(all);
  EXPECT_TRUE(twice.twice);
  EXPECT_EQ(twice.in_favour, 9);
  EXPECT_GT(twice.per_sample, 0.05);
  for (unsigned i = 0; i < 5; ++i) all[i] = simulated(0, 4, 10, 5000, i);
  EXPECT_EQ(doubleQuantisation(all).in_favour, 4);
  EXPECT_FALSE(doubleQuantisation(all).twice);
  EXPECT_FALSE(doubleQuantisation({}).twice);
}

}  // namespace
}  // namespace huewright
