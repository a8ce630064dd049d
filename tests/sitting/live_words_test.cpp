#include "sitting/live_words.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

TEST(LiveWords, SaySteadyOrMoving) {
  EXPECT_EQ(stateWords(LiveState::Steady, 1), "Steady: the first frame.");
  EXPECT_EQ(stateWords(LiveState::Steady, 41.7), "Steady: 42 frames are averaged.");
  EXPECT_TRUE(stateWords(LiveState::Moving, 5).starts_with("It moves"));
  EXPECT_TRUE(stateWords(LiveState::Looking, 0).starts_with("Looking"));
}

TEST(LiveWords, TellTheNoiseOnceItIsKnown) {
  EXPECT_EQ(noiseWords(0.12, 0.03), "Their noise moves the distance by ΔE00 0.03; that of one frame alone by 0.12.");
  EXPECT_EQ(noiseWords(0.012, 0.003), "Their noise moves the distance by ΔE00 less than 0.01; that of one frame alone by 0.01.");
  EXPECT_EQ(noiseWords({}, 0.03), "");
  EXPECT_EQ(noiseWords(0.12, {}), "");
}

TEST(LiveWords, TellWhatIsHeld) {
  CameraFacts facts;
  EXPECT_EQ(heldWords(facts, {}), "A film: there is nothing to hold.");
  facts.live = true;
  EXPECT_EQ(heldWords(facts, {}), "");
  const std::string words = heldWords(facts, {Hold::Held, Hold::Refused, Hold::Held});
  EXPECT_NE(words.find("white balance"), std::string::npos) << words;
  EXPECT_TRUE(words.ends_with('.'));
}

}  // namespace
}  // namespace huewright
