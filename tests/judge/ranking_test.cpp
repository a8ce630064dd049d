#include "judge/ranking.hpp"

#include <random>

#include "judge/judge_support.hpp"

namespace huewright {
namespace {

const Lab<D50> kRankCard{45, -30, -12};

std::vector<Verdict> verdictsOf(const Reading& r) {
  std::vector<Verdict> all;
  for (std::size_t i = 0; i < r.panels.size(); ++i) all.push_back(compare(r, i, "a panel", standards(), {1.0, CardKind::Same}));
  return all;
}

TEST(Rank, NearestFirstAndSurely) {
  const Reading r = handReading({{40, -30, -12}, {44.5, -30, -12}, {52, -30, -12}}, kRankCard, 0.1);
  const Ranking ranking = rank(r, verdictsOf(r), {});
  ASSERT_EQ(ranking.order.size(), 3u);
  EXPECT_EQ(ranking.order[0].panel, 1u);
  EXPECT_EQ(ranking.order[1].panel, 0u);
  EXPECT_TRUE(ranking.order[0].surely_nearer && ranking.order[1].surely_nearer);
  EXPECT_EQ(ranking.sentence, "B is nearer than A, surely; A is nearer than C, surely.");
}

TEST(Rank, WhatCannotBeToldApartIsSaidWithTheStrongerMix) {
  const Reading r = handReading({{43.0, -30, -12}, {46.9, -30, -12}}, kRankCard, 0.4);
  const std::vector<Mix> mixes{{1, 2}, {1, 5}};
  const Ranking ranking = rank(r, verdictsOf(r), mixes);
  EXPECT_FALSE(ranking.order[0].surely_nearer);
  EXPECT_EQ(ranking.sentence, "B and A cannot be told apart: keep the stronger mix, A (1:2).");
}

// An error that moves the card moves all distances together: a paired comparison must still tell the panels apart.
TEST(Rank, TheComparisonIsPaired) {
  Reading r = handReading({{42, -30, -12}, {41, -30, -12}}, kRankCard, 0.05);
  r.influences.push_back({Part::ToneLocal, {{}, {}, {0.8, 0, 0}}});
  const auto verdicts = verdictsOf(r);
  EXPECT_GT(verdicts[0].high, verdicts[1].low);  // the separate intervals overlap
  EXPECT_TRUE(rank(r, verdicts, {}).order[0].surely_nearer);
}

// Two panels at the same true distance must be called "surely nearer" in about 5 % of the trials (2.5 % either way).
TEST(Rank, SurelyIsSeldomWrong) {
  std::mt19937_64 rng(4);
  std::normal_distribution<double> n;
  constexpr double kSd = 0.3;
  int surely = 0;
  constexpr int kTrials = 600;
  const Standards st = standards();
  for (int i = 0; i < kTrials; ++i) {
    const auto shaken = [&](Lab<D50> lab) { return Lab<D50>{lab.L + kSd * n(rng), lab.a + kSd * n(rng), lab.b + kSd * n(rng)}; };
    const Reading r = handReading({shaken({46.4, -30, -12}), shaken({43.6, -30, -12})}, shaken(kRankCard), kSd);
    std::vector<Verdict> v;
    for (std::size_t k = 0; k < 2; ++k) v.push_back(compare(r, k, "a panel", st, {1.0, CardKind::Same}));
    surely += rank(r, v, {}).order[0].surely_nearer;
  }
  EXPECT_LT(surely, 0.09 * kTrials);
  EXPECT_GT(surely, 0.005 * kTrials);  // it does say so now and then: not simply silent
}

TEST(Mix, ShareIsStrongOverAll) {
  EXPECT_DOUBLE_EQ((Mix{1, 3}).share(), 0.25);
  EXPECT_DOUBLE_EQ((Mix{2, 0}).share(), 1.0);
}

// Strips of a stepped panel: coats are counted, bare ground is no candidate.
TEST(Rank, StripsAreCalledByTheirCoats) {
  const Reading r = handReading({{80, 0, 0}, {50, -25, -10}, {45.2, -30, -12}}, kRankCard, 0.1);
  const Ranking ranking = rank(r, verdictsOf(r), {}, {{"bare ground", "2 coats", "3 coats"}, {0}, true});
  ASSERT_EQ(ranking.order.size(), 2u);
  EXPECT_EQ(ranking.sentence, "3 coats come nearer than 2 coats, surely.");
  const Reading alike = handReading({{43.0, -30, -12}, {46.9, -30, -12}}, kRankCard, 0.4);
  EXPECT_EQ(rank(alike, verdictsOf(alike), {}, {{"2 coats", "3 coats"}, {}, true}).sentence,
            "3 coats and 2 coats cannot be told apart: keep the fewer, one can be added but none taken off.");
}

TEST(Rank, WhatToKeepIsSaidOnlyOfTheNearest) {
  const Reading r = handReading({{44.6, -30, -12}, {38, -30, -12}, {52.4, -30, -12}}, kRankCard, 0.4);
  const std::vector<Mix> mixes{{1, 3}, {1, 2}, {1, 5}};
  const std::string text = rank(r, verdictsOf(r), mixes).sentence;
  EXPECT_EQ(text.find("keep"), std::string::npos) << text;
  EXPECT_NE(text.find("A is nearer than"), std::string::npos) << text;
}

}  // namespace
}  // namespace huewright
