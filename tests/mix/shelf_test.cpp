#include "mix/shelf.hpp"

#include <gtest/gtest.h>

#include "mix/mix_scene.hpp"

namespace huewright {
namespace {

using namespace mixing;

/// A shelf of made-up tints that are well known; the first two are the made strong and weak one.
TintFile madeShelf(std::size_t count) {
  render::Random random(12);
  TintFile shelf;
  for (std::size_t i = 0; i < count; ++i) {
    Tint tint = i < 2 ? madeTints()[i] : Tint{{random.uniform(0.2, 6), random.uniform(0.2, 6), random.uniform(0.2, 6)}, {0.08, 0.08, 0.08}};
    KnownTint known{"tint " + std::to_string(i), {tint, std::vector<double>(36)}};
    for (std::size_t a = 0; a < 6; ++a) known.fitted.covariance[7 * a] = 1e-4;
    shelf.tints.push_back(known);
  }
  return shelf;
}

ShelfWish wishFor(const Lab<D50>& target) { return {.target = target, .ground = kMadeGround, .carrier_per_tint = 6, .limits = {}, .most_tints = 3, .keep = 5}; }

TEST(Shelf, FindsTheTwoTintsThatMadeTheColour) {
  const auto mixes = fromShelf(madeShelf(8), wishFor(madeColour(0.4, 4)));
  ASSERT_TRUE(mixes);
  ASSERT_EQ(mixes->size(), 5U);
  EXPECT_EQ(mixes->front().tints, (std::vector<std::size_t>{0, 1}));
  EXPECT_EQ(mixes->front().choice.parts, (std::vector{2, 3}));
  EXPECT_EQ(mixes->front().choice.coats, 4);
  EXPECT_LT(mixes->front().choice.de00, 0.01);
  for (std::size_t i = 1; i < mixes->size(); ++i) EXPECT_LE((*mixes)[i - 1].choice.score, (*mixes)[i].choice.score);
}

TEST(Shelf, FindsThreeWhenThreeMadeIt) {
  const auto shelf = madeShelf(8);
  const std::vector<Tint> tints{shelf.tints[1].fitted.mean, shelf.tints[4].fitted.mean, shelf.tints[6].fitted.mean};
  const std::vector<double> shares{3 / 8.0, 4 / 8.0, 1 / 8.0};
  const auto mixes = fromShelf(shelf, wishFor(filmLab(tints, {shares, 1 / 7.0, 3}, sharpened(kMadeGround))));
  ASSERT_TRUE(mixes);
  EXPECT_EQ(mixes->front().tints, (std::vector<std::size_t>{1, 4, 6}));
  EXPECT_EQ(mixes->front().choice.parts, (std::vector{3, 4, 1}));
  EXPECT_EQ(mixes->front().choice.coats, 3);
}

// A third tint that brings nothing that can be seen stays on the shelf; one tint is enough for its own colour.
TEST(Shelf, SimplerIsBetter) {
  const auto mixes = fromShelf(madeShelf(8), wishFor(madeColour(1, 3)));
  ASSERT_TRUE(mixes);
  EXPECT_EQ(mixes->front().tints, (std::vector<std::size_t>{0}));
  for (const ShelfMix& mix : *mixes)
    for (const int p : mix.choice.parts) EXPECT_GT(p, 0);
}

// Every mix of every pair, by plain reckoning.
TEST(Shelf, QuickSearchMissesNothing) {
  const auto shelf = madeShelf(6);
  const Lab<D50> target{55, 12, -20};
  ShelfWish wish = wishFor(target);
  wish.most_tints = 2;
  const auto mixes = fromShelf(shelf, wish);
  ASSERT_TRUE(mixes);
  double least = 1e9;
  for (std::size_t a = 0; a < shelf.tints.size(); ++a)
    for (std::size_t b = a + 1; b < shelf.tints.size(); ++b)
      for (const auto& parts : wholeParts(2, 8, false))
        for (double n = 1; n <= 6; ++n) {
          const std::vector<Tint> tints{shelf.tints[a].fitted.mean, shelf.tints[b].fitted.mean};
          const double s = parts[0] / static_cast<double>(parts[0] + parts[1]);
          const std::vector<double> shares{s, 1 - s};
          least = std::min(least, deltaE2000(filmLab(tints, {shares, 1 / 7.0, n}, sharpened(kMadeGround)), target));
        }
  EXPECT_NEAR(mixes->front().choice.de00, least, 0.3);
  EXPECT_GE(mixes->front().choice.de00, least - 1e-9);
}

// Where one tint is overrated as the other is underrated, a mix of both is surer than two tints that are unsure each for itself.
TEST(Shelf, TintsOfOneSeriesGoTogether) {
  TintFile shelf = madeShelf(2);
  for (KnownTint& tint : shelf.tints)
    for (std::size_t a = 0; a < 3; ++a) tint.fitted.covariance[7 * a] = 0.04;
  const auto apart = fromShelf(shelf, wishFor(madeColour(0.4, 4)));
  TintsTogether group{{"tint 0", "tint 1"}, std::vector<double>(144)};
  for (std::size_t a = 0; a < 6; ++a) {
    group.covariance[13 * a] = group.covariance[13 * (a + 6)] = shelf.tints[0].fitted.covariance[7 * a];
    if (a < 3) group.covariance[12 * a + a + 6] = group.covariance[12 * (a + 6) + a] = -0.03;
  }
  shelf.together.push_back(group);
  const auto together = fromShelf(shelf, wishFor(madeColour(0.4, 4)));
  ASSERT_TRUE(apart && together);
  EXPECT_EQ(together->front().tints, (std::vector<std::size_t>{0, 1}));
  EXPECT_EQ(together->front().choice.parts, apart->front().choice.parts);
  EXPECT_LT(together->front().choice.high, 0.85 * apart->front().choice.high);
}

TEST(Shelf, EmptyAndOverfullShelvesAreRefused) {
  EXPECT_EQ(fromShelf({}, wishFor(kMadeGround)).error().code, Code::TintFileUnusable);
  EXPECT_EQ(fromShelf(madeShelf(41), wishFor(kMadeGround)).error().code, Code::TintFileUnusable);
}

}  // namespace
}  // namespace huewright
