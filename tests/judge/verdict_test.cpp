#include "judge/verdict.hpp"

#include "judge/judge_support.hpp"

namespace huewright {
namespace {

const Lab<D50> kVerdictCard{45, -30, -12};

TEST(Bands, FollowTheInterval) {
  struct Row {
    double low, high;
    Band band;
  };
  // Tolerance 1: there: high <= 1; can't say: low <= 1 < high; nearly: 1 < low <= 2; not there: low > 2.
  for (const Row& r : {Row{0, 0.9, Band::There}, Row{0, 1.0, Band::There}, Row{0.2, 1.1, Band::CantSay}, Row{1.0, 3, Band::CantSay},
                       Row{1.01, 1.8, Band::Nearly}, Row{2.0, 2.5, Band::Nearly}, Row{2.01, 2.5, Band::NotThere}})
    EXPECT_EQ(bandOf({r.low, r.high}, 1.0), r.band) << r.low << " " << r.high;
  EXPECT_EQ(bandName(Band::CantSay), "cant-say");
}

TEST(Compare, APanelLikeTheCardIsThere) {
  const Verdict v = compare(handReading({kVerdictCard}, kVerdictCard, 0.1), 0, "the panel", standards(), {1.0, CardKind::Same});
  EXPECT_EQ(v.band, Band::There);
  EXPECT_EQ(v.low, 0);
  EXPECT_NE(v.sentence.find("The panel matches the card"), std::string::npos) << v.sentence;
}

TEST(Compare, NamesTheToleranceAsItIs) {
  for (const auto& [tolerance, words] : {std::pair{2.0, "tolerance of 2.0."}, std::pair{0.75, "tolerance of 0.75."}, std::pair{12.5, "tolerance of 12.5."}}) {
    const Verdict v = compare(handReading({kVerdictCard}, kVerdictCard, 0.1), 0, "the panel", standards(), {tolerance, CardKind::Same});
    EXPECT_TRUE(v.sentence.ends_with(words)) << v.sentence;
  }
}

TEST(Compare, ANeutralPanelHasAnIntervalOfItsOwnSize) {
  const Verdict v = compare(handReading({{49.5, 0, 1e-15}}, {51, 2, -1.5}, 0.3), 0, "the panel", standards(), {1.0, CardKind::Same});
  EXPECT_GT(v.low, 0.4 * v.de00);
  EXPECT_LT(v.high, 1.6 * v.de00);
}

TEST(Compare, ADeeperPanelIsCalledDeeper) {
  const Verdict v = compare(handReading({{39, -30, -12}}, kVerdictCard, 0.1), 0, "the panel", standards(), {1.0, CardKind::Same});
  EXPECT_EQ(v.band, Band::NotThere);
  EXPECT_LT(v.difference.dL, 0);
  EXPECT_NE(v.sentence.find("is deeper than the card"), std::string::npos) << v.sentence;
  EXPECT_LT(v.low, v.de00);
  EXPECT_GT(v.high, v.de00);
}

TEST(Compare, AnUnknownCardKeepsThereBack) {
  const Verdict v = compare(handReading({kVerdictCard}, kVerdictCard, 0.1), 0, "the panel", standards(), {1.0, CardKind::Unknown});
  EXPECT_EQ(v.band, Band::CantSay);
  EXPECT_TRUE(v.there_if_same_paint);
  EXPECT_EQ(v.sentence.rfind("There, if the card is the same paint", 0), 0u) << v.sentence;
}

TEST(Compare, SharedCausesCancel) {
  Reading r = handReading({{40, -28, -12}}, kVerdictCard, 0.05);
  const Verdict before = compare(r, 0, "the panel", standards(), {1.0, CardKind::Same});
  Influence shared{Part::LightCourse, {{2, 0, 0}, {2, 0, 0}}};  // both two units lighter
  r.influences.push_back(shared);
  const Verdict with = compare(r, 0, "the panel", standards(), {1.0, CardKind::Same});
  EXPECT_LT(with.high - with.low, before.high - before.low + 0.5);
  r.influences.back().on_lab[1] = {};
  const Verdict one_sided = compare(r, 0, "the panel", standards(), {1.0, CardKind::Same});
  EXPECT_GT(one_sided.high - one_sided.low, before.high - before.low + 3);
}

TEST(Compare, MuchClippingNeverSaysThere) {
  Reading r = handReading({kVerdictCard}, kVerdictCard, 0.05);
  r.card.clipped = 0.5;
  const Verdict v = compare(r, 0, "the panel", standards(), {1.0, CardKind::Same});
  EXPECT_EQ(v.band, Band::CantSay);
  EXPECT_TRUE(v.range_lost);
  EXPECT_NE(v.sentence.find("out of range"), std::string::npos);
}

TEST(Compare, TheBudgetHoldsEachCause) {
  Reading r = handReading({{40, -30, -12}}, kVerdictCard, 0.1);
  const Verdict v = compare(r, 0, "the panel", standards(), {1.0, CardKind::Printed});
  EXPECT_GT(ofCause(v.budget, Cause::Texture), 0.05);
  EXPECT_EQ(ofCause(v.budget, Cause::Veil), 0);
  EXPECT_NEAR(ofCause(v.budget, Cause::CardKind), 2.7 / 2.795, 1e-9);
}

}  // namespace
}  // namespace huewright
