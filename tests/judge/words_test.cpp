#include "judge/words.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

constexpr Mat3 kSure = 1e-4 * Mat3::identity();

std::string words(const Lab<D50>& panel, const Lab<D50>& card, const Mat3& covariance = kSure) {
  return describe(deltaVector(panel, card), covariance, panel, card);
}

TEST(Describe, OneWayEach) {
  struct Row {
    Lab<D50> panel, card;
    const char* text;
  };
  for (const Row& r : {Row{{50, -30, -10}, {45, -30, -10}, "lighter"}, Row{{40, -30, -10}, {45, -30, -10}, "deeper"},
                       Row{{45, -36, -12}, {45, -30, -10}, "stronger in colour"}, Row{{45, -24, -8}, {45, -30, -10}, "weaker in colour"},
                       Row{{45, -28.8, -13.2}, {45, -30, -10}, "bluer"}, Row{{45, -31.1, -5}, {45, -30, -10}, "greener"}})
    EXPECT_EQ(words(r.panel, r.card), r.text) << r.text;
}

TEST(Describe, TheLargerPartComesFirst) { EXPECT_EQ(words({38, -28.8, -14}, {45, -30, -10}), "deeper and bluer"); }

TEST(Describe, NothingSureNothingSaid) {
  EXPECT_EQ(words({45, -30, -10}, {45, -30, -10}), "");
  EXPECT_EQ(words({46, -30, -10}, {45, -30, -10}, Mat3::identity()), "");
}

TEST(DifferenceWords, AreWhatDescribeJoins) {
  const Lab<D50> panel{40, -21, -10.6}, card{45, -30, -10};  // by CIEDE2000 worked by hand about 4.6 deeper, 3.6 weaker, 2.9 turned
  const auto parts = differenceWords(deltaVector(panel, card), kSure, panel, card);
  EXPECT_EQ(parts, (std::vector<std::string>{"deeper", "weaker in colour", "bluer"}));
  EXPECT_EQ(listOfWords(parts), words(panel, card));
  EXPECT_EQ(listOfWords(parts), "deeper, weaker in colour and bluer");
  EXPECT_EQ(listOfWords({}), "");
}

TEST(HueWord, NearNeutralItFollowsTheDirection) {
  struct Row {
    Lab<D50> panel;
    const char* word;
  };
  for (const Row& r : {Row{{50, 3, 1}, "redder"}, Row{{50, 0, 3}, "yellower"}, Row{{50, -3, 0.8}, "greener"}, Row{{50, -0.5, -3}, "bluer"}})
    EXPECT_EQ(hueWord(r.panel, {50, 0, 0}), r.word);
}

TEST(HueWord, AColouredCardTurnsTowardsTheNextPole) {
  struct Row {
    Lab<D50> panel, card;
    const char* word;
  };
  for (const Row& r : {Row{{50, 40, 34}, {50, 42, 30}, "yellower"},      // an orange red turned up
                       Row{{50, 44, 26}, {50, 42, 30}, "redder"},
                       Row{{50, 18, -40}, {50, 14, -42}, "redder"},      // a violet blue turned on
                       Row{{50, 10, -43}, {50, 14, -42}, "bluer"}})
    EXPECT_EQ(hueWord(r.panel, r.card), r.word);
}

}  // namespace
}  // namespace huewright
