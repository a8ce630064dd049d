#include "mix/advice_words.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

/// Advice with everything that the words take, filled in by hand.
Advice plainAdvice() {
  Advice advice;
  NextMix next;
  next.choice.parts = {1, 4};
  next.choice.coats = 4;
  next.choice.de00 = 0.4;
  next.choice.high = 1.0;
  next.best.share = 0.21;
  next.direction = ShareWay::Decrease;
  advice.next = next;
  advice.panels = 4;
  advice.share_low = 0.17;
  advice.share_high = 0.24;
  return advice;
}

TEST(AdviceWords, NextMix) {
  EXPECT_EQ(adviceSentence(plainAdvice()),
            "Next spray 1:4 at 4 coats: it should come within ΔE00 0.4 (0.0 to 1.0). Less of the strong tint than in the last panel: the share that fits best is 0.21 (0.17 to 0.24).");
}

TEST(AdviceWords, UnknownDirectionIsSaid) {
  Advice advice = plainAdvice();
  advice.next->direction = ShareWay::Unknown;
  EXPECT_NE(adviceSentence(advice).find("cannot be said yet"), std::string::npos);
}

TEST(AdviceWords, BothSidesOfTwins) {
  Advice advice = plainAdvice();
  advice.next->twin = advice.next->choice;
  advice.next->twin->parts = {1, 5};
  EXPECT_NE(adviceSentence(advice).find("1:5 at 4 coats could not be told from it; of the two the stronger mix was taken, since it hides better"), std::string::npos);
  advice.next->kept_weaker = true;
  EXPECT_NE(adviceSentence(advice).find("so few coats may not even out"), std::string::npos);
}

TEST(AdviceWords, NotReachable) {
  Advice advice = plainAdvice();
  advice.reach.reachable = false;
  advice.reach.nearest = 2.31;
  advice.reach.stays = "greener";
  EXPECT_NE(adviceSentence(advice).find("the nearest stays ΔE00 2.3 off, greener. Neither other coats nor a known ground would do it."), std::string::npos);
  advice.reach.coats = 8;
  EXPECT_NE(adviceSentence(advice).find("With 8 coats it could be."), std::string::npos);
  advice.reach.ground = "graphite";
  EXPECT_NE(adviceSentence(advice).find("Over the ground \"graphite\" it could be."), std::string::npos);
}

TEST(AdviceWords, LearnAndPart) {
  Advice advice = plainAdvice();
  advice.learn = LearnPlan{{{{1, 3}, {1, 2, 3, 4}}}, 4, 1, "What would teach the most: this."};
  EXPECT_EQ(adviceSentence(advice).find("What is known is little: 1:4 at 4 coats may come anywhere within ΔE00 0.0 to 1.0."), 0U);
  EXPECT_TRUE(adviceSentence(advice).ends_with("What would teach the most: this."));
  advice.next.reset();
  EXPECT_EQ(adviceSentence(advice), "Nothing is known of these tints yet. What would teach the most: this.");
  advice.part = PartAdvice{PartStep::Stop, {}, {}, 0, "Stop."};
  EXPECT_EQ(adviceSentence(advice), "Stop.");
}

}  // namespace
}  // namespace huewright
