#include "mix/on_the_part.hpp"

#include <gtest/gtest.h>

#include "mix/mix_scene.hpp"

namespace huewright {
namespace {

using namespace mixing;

// The card is the mix's own colour at 4 coats.
TEST(OnThePart, CountsUpToTheCard) {
  const Aim aim = knowingAim(madeColour(0.25, 4));
  EXPECT_EQ(onThePart(aim, 0.25, 1).step, PartStep::MoreThanOne);
  EXPECT_NEAR(onThePart(aim, 0.25, 1).missing, 3, 0.15);
  EXPECT_EQ(onThePart(aim, 0.25, 2).step, PartStep::MoreThanOne);
  const PartAdvice short_by_one = onThePart(aim, 0.25, 3);
  EXPECT_EQ(short_by_one.step, PartStep::OneMoreThenStop);
  EXPECT_LT(short_by_one.one_more.de00, 0.1);
  EXPECT_NE(short_by_one.sentence.find("one more coat, then stop"), std::string::npos);
  EXPECT_EQ(onThePart(aim, 0.25, 4).step, PartStep::Stop);
  const PartAdvice over = onThePart(aim, 0.25, 5);
  EXPECT_EQ(over.step, PartStep::DoNotAdd);
  EXPECT_NE(over.sentence.find("about one coat too deep"), std::string::npos);
  EXPECT_NE(over.sentence.find("do not add"), std::string::npos);
}

// Half a coat short, one more would be half a coat over: as near on either side, so it stops, since too deep cannot be undone.
TEST(OnThePart, StopsWhenOneMoreWouldBeAsFarOver) {
  EXPECT_EQ(onThePart(knowingAim(madeColour(0.25, 3.45)), 0.25, 3).step, PartStep::Stop);
  EXPECT_EQ(onThePart(knowingAim(madeColour(0.25, 3.8)), 0.25, 3).step, PartStep::OneMoreThenStop);
}

}  // namespace
}  // namespace huewright
