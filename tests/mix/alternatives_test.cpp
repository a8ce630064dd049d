#include "mix/alternatives.hpp"

#include <algorithm>
#include <gtest/gtest.h>

#include "mix/mix_scene.hpp"

namespace huewright {
namespace {

using namespace mixing;

TEST(Alternatives, AreOtherMixesOfTheirKind) {
  const Aim aim = knowingAim(madeColour(0.4, 4));
  const NextMix next = nextMix(aim, {}, {});
  ASSERT_EQ(next.choice.parts, (std::vector{2, 3}));
  const auto others = alternatives(aim, {}, next);
  ASSERT_GE(others.size(), 2U);
  EXPECT_LE(others.size(), 3U);
  for (const Alternative& other : others) {
    EXPECT_FALSE(other.choice.parts == next.choice.parts && other.choice.coats == next.choice.coats);
    EXPECT_GE(other.choice.high, other.choice.de00);
    EXPECT_TRUE(other.trade.ends_with("."));
    if (other.kind == AlternativeKind::SameCoats) {
      EXPECT_EQ(other.choice.coats, next.choice.coats);
    }
    if (other.kind == AlternativeKind::SameParts) {
      EXPECT_EQ(other.choice.parts, next.choice.parts);
    }
    if (other.kind == AlternativeKind::Stronger) {
      EXPECT_GT(other.choice.share(), next.choice.share());
      EXPECT_LT(other.choice.coats, next.choice.coats);
    }
  }
  EXPECT_EQ(others.front().kind, AlternativeKind::SameCoats);
}

// One coat away at the same mix: the trade says what is sprayed more or less and how much further off that is.
TEST(Alternatives, TradesAreInThePaintersSteps) {
  const Aim aim = knowingAim(madeColour(0.25, 4.4));
  const NextMix next = nextMix(aim, {.max_total_parts = 4}, {});
  bool told = false;
  for (const Alternative& other : alternatives(aim, {.max_total_parts = 4}, next)) {
    if (other.choice.coats == next.choice.coats) continue;
    told = true;
    EXPECT_TRUE(other.trade.find("to spray") != std::string::npos) << other.trade;
    EXPECT_TRUE(other.trade.find("further off") != std::string::npos || other.trade.find("as near") != std::string::npos || other.trade.find("nearer") != std::string::npos) << other.trade;
  }
  EXPECT_TRUE(told);
}

TEST(Alternatives, NothingFarOffIsNamed) {
  const Aim aim = knowingAim(madeColour(0, 4));
  MixLimits one;
  one.coats_low = one.coats_high = 4;
  one.max_total_parts = 1;
  const NextMix next = nextMix(aim, one, {});
  EXPECT_TRUE(alternatives(aim, one, next).empty());
}

TEST(Alternatives, CupLineIsOfferedOnlyToAMixThatIsNone) {
  const Aim aim = knowingAim(madeColour(0.4, 4));
  const auto has_line = [](const std::vector<Alternative>& all) { return std::ranges::any_of(all, [](const Alternative& a) { return a.kind == AlternativeKind::CupLine; }); };
  const NextMix line = nextMix(aim, {.lines_only = true}, {});
  EXPECT_FALSE(has_line(alternatives(aim, {.lines_only = true}, line)));
  EXPECT_EQ(alternativeName(AlternativeKind::CupLine), "cup-line");
}

}  // namespace
}  // namespace huewright
