#include "judge/views.hpp"

#include <gtest/gtest.h>

#include "judge/judge_support.hpp"

namespace huewright {
namespace {

Verdict verdictOf(const Lab<D50>& panel, double sd, CardKind kind = CardKind::Same) {
  return compare(handReading({panel}, {50, -20, -20}, sd), 0, "the panel", standards(), {1.0, kind});
}

const Lab<D50> kMatch{50, -20, -20.1}, kOff{53, -20, -20}, kFarther{56, -20, -20};

TEST(Views, AMatchThatPartsInTheOtherLight) {
  const Verdict match = verdictOf(kMatch, 0.1), off = verdictOf(kOff, 0.1);
  const ViewComparison c = compareViews(match, off, 0);
  EXPECT_EQ(c.change, ViewChange::Parted);
  EXPECT_GT(c.by.low, 2);
  EXPECT_LT(c.by.high, 4);
  EXPECT_NE(lightsSentence(c, match, "the panel").find("matches the card in the first light and parts from it in the second"), std::string::npos);
  const ViewComparison back = compareViews(off, match, 0);
  EXPECT_NE(lightsSentence(back, off, "the panel").find("in the second light and parts from it in the first"), std::string::npos);
  EXPECT_NE(flopSentence(c, match, "the panel").find("matches the card on the face and not on the flop"), std::string::npos);
  EXPECT_NE(flopSentence(back, off, "the panel").find("matches the card on the flop and not on the face"), std::string::npos);
}

TEST(Views, BothOffButOtherwise) {
  const Verdict off = verdictOf(kOff, 0.1);
  const ViewComparison c = compareViews(off, verdictOf(kFarther, 0.1), 0);
  EXPECT_EQ(c.change, ViewChange::Changed);
  EXPECT_NE(lightsSentence(c, off, "the panel").find("depends on the light"), std::string::npos);
}

TEST(Views, NoChangeIsSaidOnlyWhenItIsSure) {
  const Verdict sure = verdictOf(kOff, 0.1), unsure = verdictOf(kOff, 1.2);
  EXPECT_EQ(compareViews(sure, sure, 0).change, ViewChange::None);
  const ViewComparison c = compareViews(unsure, unsure, 0);
  EXPECT_EQ(c.change, ViewChange::Unsure);
  EXPECT_TRUE(lightsSentence(c, unsure, "the panel").starts_with("Can't say"));
  EXPECT_TRUE(flopSentence(c, unsure, "the panel").starts_with("Can't say"));
}

TEST(Views, TheKindOfCardDoesNotHideAChange) {
  const double kind = cardKindSd(standards(), CardKind::Other);
  const ViewComparison c = compareViews(verdictOf(kMatch, 0.1, CardKind::Other), verdictOf(kOff, 0.1, CardKind::Other), kind);
  EXPECT_NE(c.change, ViewChange::Unsure);
  EXPECT_GT(c.by.low, 2);
}

}  // namespace
}  // namespace huewright
